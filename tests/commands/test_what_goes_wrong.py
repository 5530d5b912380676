"""Whatever a person can get wrong ends with one plain message on standard error and a code that tells what it was."""

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

WRONG = (
    ("spool weigh PETG-BLACK-01 much", 2, "GROSS: «much» is no number"),
    ("spool weigh NOSUCH-01 700", 1, "There is no spool «NOSUCH-01»"),
    ("spool weigh", 2, "SPOOL"),
    ("spool wiegh PETG-BLACK-01 700", 2, "Did you mean weigh?"),
    ("spol weigh", 2, "Did you mean spool?"),
    ("fit passed FIT-1 ARM", 2, "Write `buildlog fit record TEST PLACE [OUTCOME]`"),
    ("weigh PETG-BLACK-01 700", 2, "Did you mean spool weigh?"),
    ("spool weigh PETG-BLACK-01 700 --caus x", 2, "--cause"),
    ("spool weigh PETG-BLACK-01 700 --at someday", 2, "--at: «someday» is no moment"),
    ("spool weigh PETG-BLACK-01 700 --at 2027-01-01", 2, "--at: «2027-01-01» is in the future"),
    ("print start --printer P1", 2, "FILE: name a file"),
    ("print fail P1 --real-time soon", 2, "--real-time: «soon» is no duration"),
    ("part revise A01 --old good", 2, "--old: «good» is none of: still good, stand-ins, no good"),
    ("lot count F01 -- -3", 2, "PIECES: must be at least 0"),
    ("blockers 'LEG R.x'", 2, "PLACE: «LEG R.x» is no position"),
    ("lot fit nowhere", 2, "SLOT: «nowhere» is no slot"),
    ("blockers NOWHERE", 1, "There is no position «NOWHERE»"),
    ("week --of someday", 1, "«someday» names no week"),
    ("week --build XX", 1, "There is no build «XX»"),
    ("export dragons", 2, "«dragons» is none of"),
    ("undo 9999", 1, "9999"),
    ("undo first", 2, "'group'"),
    ("change part B01", 2, "--help"),
    ("read /nowhere/parts.csv", 6, "/nowhere/parts.csv"),
    ("restore /nowhere/copy.db", 2, "/nowhere/copy.db"),
    ("export parts --out /nowhere/parts.csv", 6, "/nowhere/parts.csv"),
)


@pytest.mark.parametrize(("line", "code", "words"), WRONG)
def test_one_message_names_what_was_typed(story: Any, line: str, code: int, words: str) -> None:
    said = story(line)
    assert (said.code, said.out) == (code, ""), said.err
    assert words in said.err
    assert "Traceback" not in said.err


def test_nothing_is_written_when_one_of_several_values_is_wrong(story: Any) -> None:
    before = story("journal --json").out
    said = story("print start --printer P1 --lines 'B05 x4' --grams many --print-time soon")
    assert {line.split(":")[0] for line in said.err.splitlines()} == {"--grams", "--print-time"}
    assert story("journal --json").out == before


@pytest.mark.parametrize(("name", "content"), [("notes.db", b"not a ledger at all"), ("folder", None)])
def test_what_is_no_ledger_is_left_as_it_is(shell: Any, tmp_path: Path, name: str, content: bytes | None) -> None:
    path = tmp_path / name
    path.mkdir() if content is None else path.write_bytes(content)
    said = shell(f"--ledger {path} status")
    assert said.code in (5, 6)
    assert str(path) in said.err
    assert content is None or path.read_bytes() == content


def test_a_ledger_in_a_folder_that_cannot_be_made_is_told(shell: Any, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    said = shell(f"--ledger {tmp_path / 'file' / 'ledger.db'} status")
    assert said.code in (5, 6)
    assert "file" in said.err


def test_ctrl_c_ends_with_a_word_and_130(story: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("buildlog.commands.questions.status_of", interrupted)
    said = story("status")
    assert (said.code, said.err) == (130, "Stopped.\n")


def test_a_reader_that_goes_away_is_no_trouble(told_ledger: Path) -> None:
    line = f"{sys.executable} -c 'from buildlog.commands import main; main()' --ledger {told_ledger} blockers"
    done = subprocess.run(
        ["bash", "-c", f"{line} | head -1; exit ${{PIPESTATUS[0]}}"], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("What blocks what")


def test_piped_data_is_utf_8_whatever_the_locale_says(told_ledger: Path) -> None:
    program = "from buildlog.commands import main; main()"
    line = [sys.executable, "-c", program, "--ledger", str(told_ledger), "status"]
    done = subprocess.run(line, capture_output=True, env={"PYTHONIOENCODING": "ascii"}, check=False)
    assert (done.returncode, done.stderr) == (0, b"")
    assert "–" in done.stdout.decode("utf-8")


def test_without_a_reader_for_a_long_answer_nothing_is_complained_of(told_ledger: Path) -> None:
    line = f"{sys.executable} -c 'from buildlog.commands import main; main()' --ledger {told_ledger} export sheet"
    done = subprocess.run(
        ["bash", "-c", f"{line} | true; exit ${{PIPESTATUS[0]}}"], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")


def test_what_may_be_overruled_names_the_option_and_says_no_caution_before(story: Any) -> None:
    story("printer up P2")
    said = story("print start --printer P2 --lines 'B05 x4' --unattended")
    assert said.code == 1
    assert said.err.endswith("Or say that it was so all the same: --anyway.\n")
    assert "Caution" not in said.err
    started = story("print start --printer P2 --lines 'B05 x4' --unattended --anyway")
    assert started.code == 0, started.err
    assert "Caution" in started.err


def test_words_that_match_nothing_are_taken_and_what_follows_is_said(shell: Any) -> None:
    shell("add build LB", "Lantern Beetle")
    shell("add printer P1 Large --bed-x 300 --bed-y 300 --bed-z 300 --printer-class large")
    added = shell("add part FL07 Shin --build LB --needs enclosed")
    assert (added.code, "No printer can «enclosed»" in added.err) == (0, True)
    changed = shell("change printer P1 --capabilities encosed")
    assert "No part asks for «encosed»; usual words are two materials, enclosed" in changed.err
    assert "No printer" not in shell("change part FL07 --needs", "").err
