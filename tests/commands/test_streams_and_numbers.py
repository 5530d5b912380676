"""Command lines with numbers beyond all bounds, and streams that are closed, full or lack our characters."""

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from buildlog.commands.exits import Exit

PROGRAM = f'"{sys.executable}" -c "from buildlog.commands import main; main()"'


def in_a_shell(line: str, ledger: Path, **more: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "BUILDLOG_LEDGER": str(ledger), **more}
    return subprocess.run(
        line.replace("buildlog", PROGRAM), shell=True, capture_output=True, text=True, env=environment, timeout=60
    )


@pytest.mark.parametrize(
    "line",
    [
        "journal -n 99999999999999999999",
        "journal 99999999999999999999",
        "undo 99999999999999999999",
        "print cancel 99999999999999999999",
        "week --of 0001-01-01",
        "week --of 9999-W01",
        "week --of ²",
        f"week --of {'9' * 5000}",
        f"blockers 'HEAD {'9' * 5000}'",
        "note x --at 0001-01-01",
        f"note x --at {'9' * 5000}",
    ],
)
def test_a_number_beyond_all_bounds_is_refused_in_a_few_words(shell: Any, line: str) -> None:
    shell("add build LB", "Lantern Beetle")
    said = shell(line)
    assert said.code in (Exit.REFUSED, Exit.USAGE)
    assert 0 < len(said.err) < 1000


@pytest.mark.parametrize("line", ["blockers", "week --of", "export", "print queue", "note x --at", "add build"])
def test_what_was_typed_cannot_steer_the_terminal(shell: Any, line: str) -> None:
    shell("add build LB", "Lantern Beetle")
    said = shell(line, "\x1b]0;x\x07\x1b[2J\u202eA")
    assert said.code != Exit.OK
    assert not set("\x1b\x07\u202e") & set(said.err)


def test_a_closed_standard_output_is_no_trouble(ledger: Any) -> None:
    ran = in_a_shell("buildlog status >&-", ledger.path)
    assert (ran.returncode, ran.stderr) == (Exit.OK, "")


def test_a_closed_standard_error_still_records(ledger: Any) -> None:
    assert in_a_shell("buildlog note hello 2>&-", ledger.path).returncode == Exit.OK
    assert len(ledger.snapshot().notes) == 1


def test_a_terminal_without_our_characters_shows_question_marks(ledger: Any) -> None:
    ran = in_a_shell("buildlog note 'a – b'; buildlog export", ledger.path, PYTHONIOENCODING="latin-1")
    assert ran.returncode == Exit.OK
    assert "Traceback" not in ran.stderr


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_behind_standard_output_is_told(ledger: Any) -> None:
    ran = in_a_shell("buildlog status > /dev/full", ledger.path)
    assert ran.returncode == Exit.FILE
    assert "No space left" in ran.stderr
    assert "Traceback" not in ran.stderr


def test_bytes_that_are_no_text_are_taken_without_them(ledger: Any) -> None:
    assert in_a_shell("buildlog note $(printf 'a\\377b')", ledger.path).returncode == Exit.OK
    assert [note.text for note in ledger.snapshot().notes] == ["a b"]
