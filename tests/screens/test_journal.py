"""Journal: keys pressed, the record looked at."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.prints import CancelPrint
from buildlog.terms import JobState


def states(ledger: Ledger) -> list[JobState]:
    return [job.state for job in ledger.snapshot().jobs]


def line_of(on: Any, text: str) -> str:
    return next(line for line in on.lines if text in line)


async def go_to_group(on: Any, group_id: int) -> None:
    assert on.app.screen.query_one("#groups").move_to(f"group:{group_id}")
    await on.settle()


async def test_changes_stand_newest_first_under_their_days_with_when_they_happened(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop) as on:
        await on.press("8")
        texts = [line for line in on.lines if "elsewhere" in line]
        assert "Placed order O-01" in texts[0]
        assert "Sat 13:00" in texts[0]
        assert "stands" in texts[0]
        assert any("Wed 25 Nov" in line for line in on.lines[2:])


async def test_what_is_made_here_is_told_apart_from_what_others_made(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3 c")
        await on.press("8")
        assert "here" in line_of(on, "Cancelled")
        assert "elsewhere" in line_of(on, "Placed order")


async def test_the_rows_of_a_change_are_told_before_and_after_on_demand(workshop: Ledger, screens: Any) -> None:
    workshop.record(CancelPrint(job=4))
    async with screens(workshop) as on:
        await on.press("8")
        assert "→" not in on.text
        await on.press("r")
        assert "queued → cancelled" in line_of(on, "state")
        await on.press("r")
        assert "queued → cancelled" not in on.text


async def test_new_rows_are_told_with_units_and_codes(workshop: Ledger, screens: Any) -> None:
    weighed = next(g.id for g in workshop.journal() if g.action == "weigh_spool")
    async with screens(workshop, size=(80, 40)) as on:
        await on.press("8")
        await go_to_group(on, weighed)
        await on.press("enter")
        assert "A1" in line_of(on, "spool  ")
        assert "1000 g" in line_of(on, "gross")


async def test_enter_goes_down_to_the_rows_and_up_again(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("8 enter")
        assert on.app.screen.focused.id == "rows"
        await on.press("enter")
        assert on.app.screen.focused.id == "groups"


async def test_any_change_is_taken_back_from_its_line_and_put_back(workshop: Ledger, screens: Any) -> None:
    workshop.record(CancelPrint(job=4))
    async with screens(workshop) as on:
        await on.press("8 t")
        assert "Cancelled" in on.text
        await on.press("y")
        assert states(workshop)[3] is JobState.QUEUED
        assert any("Cancelled print" in line and "taken back" in line for line in on.lines)
        await on.press("ctrl+r")
        assert states(workshop)[3] is JobState.CANCELLED


async def test_a_line_that_took_something_back_leads_to_what_it_took_back(workshop: Ledger, screens: Any) -> None:
    workshop.record(CancelPrint(job=4))
    workshop.undo()
    async with screens(workshop) as on:
        await on.press("8")
        assert "took back «Cancelled" in on.text
        await on.press("t y")
        assert "There is nothing to undo" in on.text


async def test_a_change_that_others_stand_on_says_why_it_is_not_taken_back(workshop: Ledger, screens: Any) -> None:
    laid = next(g.id for g in workshop.journal() if g.summary == "lay the workshop")
    before = len(workshop.journal())
    async with screens(workshop) as on:
        await on.press("8")
        await go_to_group(on, laid)
        await on.press("t y")
        assert "cannot be taken back" in on.text
        assert "Take that back first" in " ".join(on.text.split())
        await on.press("enter")
    assert len(workshop.journal()) == before


async def test_u_takes_back_the_newest_change_made_here(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3 c 8 u y")
        assert states(workshop)[3] is JobState.QUEUED


async def test_the_filter_leaves_what_holds_a_word(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("8 / w e i g h enter")
        shown = [line for line in on.lines if "elsewhere" in line]
        assert len(shown) == 1


async def test_older_changes_come_when_asked(workshop: Ledger, screens: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("buildlog.screens.journal.AT_ONCE", 5)
    async with screens(workshop, size=(80, 40)) as on:
        await on.press("8 end")
        assert "older changes" in on.text
        await on.press("enter")
        assert len([line for line in on.lines if "elsewhere" in line]) == 10


async def test_a_note_of_the_day_is_written(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("8 n h o t enter")
    assert workshop.snapshot().notes[-1].text == "hot"
