"""Work that takes long: it says how far it is, and esc stops it with nothing changed."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.screens.long_work import FIRST_AFTER_SECONDS

LONGER = FIRST_AFTER_SECONDS + 0.6


@contextmanager
def kept_waiting(ledger: Ledger) -> Iterator[None]:
    """Another program writes: whoever wants to write, waits."""
    other = sqlite3.connect(ledger.path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    try:
        yield
    finally:
        other.execute("ROLLBACK")
        other.close()


async def begin_a_note(on: Any) -> None:
    await on.pilot.press("n")
    await on.settle()
    await on.pilot.press("o", "k", "enter")
    await on.pilot.pause(LONGER)


async def test_what_takes_long_is_told_and_then_recorded(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        with kept_waiting(workshop):
            await begin_a_note(on)
            assert "Recording … esc stops it." in on.text
            assert workshop.snapshot().notes == ()
        await on.settle()
        assert "Noted" in on.text
    assert [note.text for note in workshop.snapshot().notes] == ["ok"]


async def test_esc_stops_what_takes_long_and_nothing_is_changed(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3")
        with kept_waiting(workshop):
            await begin_a_note(on)
            await on.pilot.press("escape")
            assert on.app.current_mode == "prints", "esc stops the work, and goes nowhere"
        await on.settle()
        assert "Stopped: nothing was changed." in on.text
        await on.press("enter escape escape")  # the form comes back as it was filled in
        assert on.app.current_mode == "today"
    assert workshop.snapshot().notes == ()
    assert workshop.check() == []


@pytest.mark.parametrize("keys", ["u y", "ctrl+r"])
async def test_taking_back_and_putting_back_can_be_stopped(workshop: Ledger, screens: Any, keys: str) -> None:
    async with screens(workshop) as on:
        await on.press("n o k enter")
        if keys == "ctrl+r":
            await on.press("u y")
        before = workshop.snapshot().notes
        with kept_waiting(workshop):
            for key in keys.split():
                await on.pilot.press(key)
                await on.pilot.pause(0.3)
            await on.pilot.pause(LONGER)
            assert "it back … esc stops it." in on.text
            await on.pilot.press("escape")
        await on.settle()
        assert "Stopped: nothing was changed." in on.text
    assert workshop.snapshot().notes == before
