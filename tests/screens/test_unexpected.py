"""What nobody expected is told on Catch up: keys pressed, the record looked at."""

from __future__ import annotations

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.terms import JobState

SHINS = 2
"""Number of the print that runs in the workshop on BIG."""


@pytest.fixture
def left(workshop: Ledger, clock: Any) -> Ledger:
    """The workshop of Wednesday 13:00, opened again on Monday at noon."""
    clock.move_on(days=5, hours=-1)
    return workshop


async def test_what_nobody_expected_is_told_by_its_form(left: Ledger, screens: Any) -> None:
    async with screens(left) as on:
        await on.press("0 a")
        for words in ("a print", "a step", "a fit", "a delivery", "a weigh-in", "a note"):
            assert words in on.text
        await on.press("6")
        await on.type("smells")
        await on.press("down down down")
        await on.type("Sat 10:00")
        await on.press("enter")
    (note,) = left.snapshot().notes
    assert (note.text, note.at) == ("smells", "2026-11-28T09:00:00Z")


async def test_a_print_that_nobody_expected_is_told_from_when_to_when(left: Ledger, screens: Any) -> None:
    async with screens(left) as on:
        await on.press("0")
        on.app.screen.query_one("#dues").move_to(f"print:{SHINS}")
        await on.settle()
        await on.press("y a 1")
        for typed in ("Sat 20:00", "F-VISOR", "", "BIG", "Sun 5:30"):
            await on.type(typed)
            await on.press("down")
        await on.press("enter")
    told = left.snapshot().jobs[-1]
    assert (told.state, told.started_at, told.ended_at) == (
        JobState.FINISHED,
        "2026-11-28T19:00:00Z",
        "2026-11-29T04:30:00Z",
    )


async def test_a_delivery_that_nobody_ordered_is_told_with_its_day(left: Ledger, screens: Any) -> None:
    async with screens(left) as on:
        await on.press("0 a 4")
        assert "O-01" in on.text
        await on.press("2")
        await on.type("PLA-AMBER")
        await on.press("up")
        await on.type("Sat 10:00")
        await on.press("enter")
    spool = left.snapshot().spools[-1]
    assert (spool.received_at, spool.order_line_id) == ("2026-11-28T09:00:00Z", None)


@pytest.mark.parametrize(("number", "about"), [("2", "sand the head"), ("3", "A fit that was tried"), ("5", "A1")])
async def test_steps_fits_and_weighings_can_be_told_at_any_time(
    left: Ledger, screens: Any, number: str, about: str
) -> None:
    async with screens(left) as on:
        await on.press(f"0 a {number}")
        assert about in on.text
