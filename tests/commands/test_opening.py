"""``demo`` lays into a ledger of its own and says where; what is laid is proved with the demo itself."""

from functools import partialmethod
from pathlib import Path
from typing import Any

import pytest

from buildlog.commands import entering
from buildlog.commands.exits import Exit
from buildlog.ledger import Ledger
from buildlog.proposals.forms_build import Build
from buildlog.proposals.nouns import Add


@pytest.fixture
def one_build_for_a_demo(monkeypatch: pytest.MonkeyPatch) -> None:
    """Laying the whole demo takes some seconds; where it goes does not depend on what it holds."""

    def lay(ledger: Ledger) -> int:
        ledger.record(Add(Build(code="DC", name="Drum Cart")))
        return 1

    monkeypatch.setattr("buildlog.commands.opening.lay_demo", lay)


@pytest.mark.usefixtures("one_build_for_a_demo")
def test_the_path_of_the_demo_goes_to_standard_output(shell: Any, tmp_path: Path) -> None:
    path = tmp_path / "demo.db"
    said = shell("demo --no-screen --into", str(path))
    assert (said.code, said.out) == (0, f"{path}\n")
    assert "DC Drum Cart" in shell(f"--ledger {path} status").out
    assert "DC Drum Cart" not in shell("status").out


@pytest.mark.usefixtures("one_build_for_a_demo")
def test_without_a_place_the_demo_leaves_the_persons_ledger_alone(
    shell: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    before = shell("journal --json").out
    path = Path(shell("demo --no-screen").out.strip())
    assert path.exists()
    assert shell("journal --json").out == before


def test_the_demo_is_not_laid_over_builds(story: Any, tmp_path: Path) -> None:
    said = story("demo --no-screen --into", str(tmp_path / "ledger.db"))
    assert (said.code, said.out) == (1, "")
    assert "name a new file" in said.err


@pytest.mark.parametrize("line", ["", "demo --into"])
def test_without_a_terminal_no_screens_are_opened_and_nothing_is_laid(shell: Any, tmp_path: Path, line: str) -> None:
    path = tmp_path / "new.db"
    said = shell(f"{line} {path}") if line else shell(f"--ledger {path}")
    assert (said.code, said.out) == (1, "")
    assert "need a terminal" in said.err
    assert not path.exists()


def test_a_fault_in_the_program_is_told_where_the_screens_were_and_loses_nothing_recorded(
    ledger: Ledger, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from textual.app import App

    ledger.record(Add(Build(code="DC", name="Drum Cart")))
    monkeypatch.setattr(entering, "need_terminal", lambda: None)
    monkeypatch.setattr(App, "run", partialmethod(App.run, headless=True))
    monkeypatch.setattr("buildlog.screens.following._read", lambda *_: 1 / 0)
    monkeypatch.setenv("BUILDLOG_LEDGER", str(ledger.path))
    assert entering.enter() == Exit.FAULT
    told = capsys.readouterr().err
    assert "ZeroDivisionError" in told
    assert "A fault in the program ended the screens" in told
    assert [build.code for build in ledger.snapshot().builds] == ["DC"]
    assert ledger.check() == []
