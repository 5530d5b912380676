"""How far long work is stands on a terminal, and Ctrl-C says what became of it."""

from __future__ import annotations

import io
from typing import Any

import pytest

from buildlog.commands.waiting import CLEARED, FIRST_AFTER_SECONDS, told_while
from buildlog.ledger import Ledger
from buildlog.proposals.forms_shop import Box
from buildlog.proposals.nouns import Add
from buildlog.watching import watched, went_on


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def seconds(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """What the clock shows: the last of the list."""
    shown = [0.0]
    monkeypatch.setattr("buildlog.commands.waiting.time.monotonic", lambda: shown[-1])
    return shown


def test_what_takes_long_is_told_on_one_line_that_goes(seconds: list[float], monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = Terminal()
    monkeypatch.setattr("sys.stderr", terminal)
    with told_while("Taking them in"):
        went_on(1, 4)
        seconds.append(FIRST_AFTER_SECONDS)
        went_on(2, 4)
        went_on(3, 4)  # at the same moment
    assert terminal.getvalue() == f"{CLEARED}Taking them in: 50 %{CLEARED}"


def test_where_nobody_looks_nothing_is_told(seconds: list[float], capsys: Any) -> None:
    with told_while("Taking them in"):
        seconds.append(FIRST_AFTER_SECONDS)
        went_on(2, 4)
    assert capsys.readouterr().err == ""


def test_ctrl_c_says_that_nothing_was_changed(capsys: Any) -> None:
    with pytest.raises(KeyboardInterrupt), told_while("Taking them in"):
        raise KeyboardInterrupt
    assert capsys.readouterr().err == "Nothing was changed.\n"


@pytest.mark.parametrize("stops_at", [2, 0], ids=["half way", "when all is done"])
def test_what_is_stopped_leaves_nothing_on_the_record(ledger: Ledger, stops_at: int) -> None:
    wishes = [(Add(Box(code=f"B{number}", name="box")), None) for number in range(4)]

    def stop(done: int, of: int) -> None:
        if (done, of) == (stops_at, len(wishes) if stops_at else 0):
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt), watched(stop):
        ledger.record_all(wishes, "boxes")
    assert ledger.snapshot().boxes == ()
    assert ledger.check() == []
