"""A shell: command lines run as ``buildlog`` runs them, on a ledger of the test's own whose clock stands still."""

import json
import shlex
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from buildlog.commands.running import run
from buildlog.ledger import Clock, Ledger

STORY_ENDS = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)  # what the clock of all tests shows at first
STORY = Path(__file__).with_name("a_build.txt")


@dataclass(frozen=True)
class Said:
    """How a command line ended: exit code, standard output, standard error."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out)


Shell = Callable[..., Said]


def open_with(clock: Clock, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every ledger that a command opens shows this clock."""
    opened = Ledger.open.__func__  # type: ignore[attr-defined]  # the function of a class method
    at_that_hour = classmethod(lambda cls, path=None, backups=None: opened(cls, path, backups, clock))
    monkeypatch.setattr(Ledger, "open", at_that_hour)


@pytest.fixture
def shell(
    tmp_path: Path,
    empty_ledger_file: Path,
    clock: Clock,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Shell:
    """``shell("spool weigh", "A-01", "690")``: words of the first text are parted, the others are as they are."""
    shutil.copy(empty_ledger_file, tmp_path / "ledger.db")
    monkeypatch.setenv("BUILDLOG_LEDGER", str(tmp_path / "ledger.db"))
    open_with(clock, monkeypatch)

    def line(words: str, *more: str) -> Said:
        capsys.readouterr()
        code = run([*shlex.split(words), *more])
        said = capsys.readouterr()
        return Said(code, said.out, said.err)

    return line


@pytest.fixture(scope="session")
def told_ledger(tmp_path_factory: pytest.TempPathFactory, empty_ledger_file: Path) -> Path:
    """The ledger after the whole story, told once; every line of it must be taken."""
    path = tmp_path_factory.mktemp("story") / "ledger.db"
    shutil.copy(empty_ledger_file, path)
    with pytest.MonkeyPatch.context() as patched:
        patched.setenv("BUILDLOG_LEDGER", str(path))
        open_with(lambda: STORY_ENDS, patched)
        for number, line in enumerate(STORY.read_text("utf-8").splitlines(), 1):
            if line and not line.startswith("#"):
                assert run(shlex.split(line)) == 0, f"{STORY.name}:{number}: {line}"
    return path


@pytest.fixture
def story(shell: Shell, told_ledger: Path, tmp_path: Path) -> Shell:
    """A shell on a copy of the told ledger, at 2026-11-25 13:00 in Berlin unless the clock is moved on."""
    shutil.copy(told_ledger, tmp_path / "ledger.db")
    return shell
