"""Every daily action is found by its name from any screen, and recorded by its form."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.field import fields_of
from buildlog.proposals.lots import CountPart
from buildlog.proposals.notes import AddNote
from buildlog.proposals.places import read_slot
from buildlog.proposals.printers import LoadSpool
from buildlog.proposals.questions import AnswerQuestion
from buildlog.proposals.slots import FitPiece
from buildlog.proposals.verbs import VERBS
from buildlog.terms import SetUpKind


async def call(on: Any, name: str) -> None:
    await on.find(name)
    await on.press("enter")


async def test_every_daily_action_is_found_by_its_command(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("ctrl+p")
        found = {choice.label for choice in on.app.screen._choices}
    assert {verb.called for verb in VERBS} <= found


@pytest.fixture
def busy(workshop: Ledger) -> Ledger:
    """With a spool on OLD, a bridge in the head, four toes counted, an answered question and a note."""
    workshop.record(LoadSpool(printer="OLD", spool="A2"))
    workshop.record(FitPiece(slot=read_slot("HEAD / BRIDGE")))
    workshop.record(CountPart(part="TOE", pieces=4))
    workshop.record(AnswerQuestion(question="Q1", answer="on wires"))
    workshop.record(AddNote(text="smells"))
    return workshop


Told = Callable[[Any], Any]

CALLS: list[tuple[str, dict[str, str], Told, Any]] = [
    ("printer unload", {"printer": "OLD"}, lambda s: s.set_ups[-1].kind, SetUpKind.UNLOADED),
    ("printer bed", {"printer": "OLD", "surface": "glass"}, lambda s: s.set_ups[-1].text, "glass"),
    ("print move", {"job": "4", "printer": "BIG"}, lambda s: s.printer[s.job[4].printer_id].code, "BIG"),
    ("spool draw", {"spool": "A2", "grams": "20"}, lambda s: s.spool_entries[-1].net_mg, 20_000),
    ("bought draw", {"item": "SCREW", "amount": "3"}, lambda s: s.bought_entries[-1].amount, 3),
    ("bought return", {"item": "SCREW", "amount": "2"}, lambda s: s.bought_entries[-1].amount, 2),
    ("order expect", {"order": "O-01", "expected": "+3d"}, lambda s: s.orders[0].expected_at[:10], "2026-11-28"),
    ("order close", {"order": "O-01"}, lambda s: s.orders[0].closed_at is not None, True),
    (
        "lot count",
        {"part": "TOE", "pieces": "6"},
        lambda s: [x.quantity for x in s.lots if x.origin == "count"],
        [4, 2],
    ),
    ("lot clear", {"slot": "HEAD / BRIDGE"}, lambda s: [f.until_at is None for f in s.fittings], [False]),
    ("question ask", {"text": "who carries?", "holds": "HEAD"}, lambda s: s.questions[-1].text, "who carries?"),
    ("question reopen", {"question": "Q1"}, lambda s: s.questions[0].answered_at, None),
    ("remove-note", {"note": "1"}, lambda s: s.notes, ()),
]


@pytest.mark.parametrize(("command", "texts", "told", "expected"), CALLS, ids=[call[0] for call in CALLS])
async def test_what_no_key_of_a_screen_records_is_recorded_by_its_command(
    busy: Ledger, screens: Any, command: str, texts: dict[str, str], told: Told, expected: Any
) -> None:
    async with screens(busy) as on:
        await call(on, command)
        asked = [name for name in on.app.screen._entries if name != "at"]
        assert asked == [field.name for verb in VERBS if verb.called == command for field in fields_of(verb.kind)]
        await on.fill(texts)
        await on.press("enter")
        assert told(busy.snapshot()) == expected, on.text


async def test_a_command_starts_from_what_stands_under_the_cursor(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3")
        on.app.screen.query_one("#top").move_to("printer:2")
        await on.settle()
        await call(on, "printer unload")
        code = workshop.snapshot().printer[2].code
        assert on.app.screen._entries["printer"].text == code


async def test_a_command_that_can_hurt_says_its_caution(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await call(on, "print start")
        await on.fill({"file": "F-CROWN", "printer": "TWIN", "unattended": "yes"})
        assert "fire" in on.text.lower()
