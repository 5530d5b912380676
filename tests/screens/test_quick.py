"""One line in plain words, from any screen: keys are pressed, and the record looked at."""

from typing import Any

import pytest
from textual.widgets import Static

from buildlog.ledger import Ledger
from buildlog.proposals.lots import CountPart
from buildlog.proposals.places import read_slot
from buildlog.proposals.slots import FitPiece
from buildlog.screens.dialogs.quick_line import QuickLine
from buildlog.screens.dialogs.say import Say
from buildlog.terms import JobState, SpoolEntryKind

SIZES = ((80, 24), (120, 40))


def as_keys(text: str) -> str:
    names = {" ": "space", "-": "minus", ":": "colon", ".": "full_stop", ",": "comma", "#": "number_sign"}
    return " ".join(names.get(letter, letter) for letter in text)


async def say(on: Any, text: str) -> None:
    await on.press(f"colon {as_keys(text)}")


async def rest(on: Any) -> None:
    """The typing rests, so that the line is tried out."""
    for _ in range(100):
        await on.pilot.pause(0.05)
        if not [w for w in on.app.workers if w.group == "trying" and w.is_running]:
            break


def meant(on: Any) -> str:
    return str(on.app.screen.query_one("#will-write", Static).visual)


@pytest.mark.parametrize("size", SIZES)
async def test_a_fact_in_plain_words_is_on_the_record_with_its_moment(
    workshop: Ledger, screens: Any, size: tuple[int, int]
) -> None:
    async with screens(workshop, size) as on:
        await say(on, "weighed A2 812 g yesterday 23:10")
        await on.press("enter")
    entry = workshop.snapshot().spool_entries[-1]
    assert (entry.gross_mg, entry.at) == (812_000, "2026-11-24T22:10:00Z")


async def test_a_print_is_finished_from_the_mirror(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await say(on, "finished TWIN")
        await on.press("enter")
    printers = {p.id: p.code for p in workshop.snapshot().printers}
    assert [printers[j.printer_id] for j in workshop.snapshot().jobs if j.state is JobState.RUNNING] == ["BIG"]


async def test_an_order_in_plain_words_is_placed_line_by_line(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        before = {order.id for order in workshop.snapshot().orders}
        await say(on, "ordered 2 ABS-BLACK, 60 SCREW from FIL")
        await rest(on)
        assert "Placed order" in meant(on)
        await on.press("enter")
    told = workshop.snapshot()
    placed = [order.id for order in told.orders if order.id not in before]
    assert len(placed) == 1
    lines = [line for line in told.order_lines if line.purchase_id == placed[0]]
    assert [line.quantity for line in lines] == [2, 60]


async def test_a_spool_that_cannot_be_loaded_is_refused_before_enter(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "BIG loaded with A2")
        await rest(on)
        assert meant(on).startswith("✗ Head 1 of BIG feeds print")
        await on.press("enter")
    assert workshop.snapshot().notes == ()


async def test_words_that_are_no_fact_are_a_note(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "the glue smells of vinegar")
        assert "note" in meant(on)
        await on.press("enter")
    assert [(n.noun, n.text) for n in workshop.snapshot().notes] == [("build", "the glue smells of vinegar")]


async def test_what_will_be_written_is_said_before_it_is(workshop: Ledger, screens: Any) -> None:
    before = workshop.snapshot().spool_entries
    async with screens(workshop) as on:
        await say(on, "opened A2")
        await rest(on)
        assert meant(on).startswith("✓ ")
        assert "A2" in meant(on)
        await on.press("escape")
    assert workshop.snapshot().spool_entries == before


async def test_what_the_ledger_would_refuse_is_said_before_enter(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "OLD is up")
        await rest(on)
        assert meant(on).startswith("✓")
        await on.press("escape")
        on.app.draft = ""
        await say(on, "BIG is up")
        await rest(on)
        assert meant(on).startswith("✗ BIG is not down")


async def test_tab_takes_what_fits_next(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "weig")
        await on.press("tab")
        assert on.app.screen.entry.value == "weighed "
        await on.press("down tab")
        assert on.app.screen.entry.value == "weighed A2 "
        await on.press(f"{as_keys('812')} enter")
    assert workshop.snapshot().spool_entries[-1].gross_mg == 812_000


async def test_what_is_missing_is_said_and_the_text_stays(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        before = len(workshop.snapshot().spool_entries)
        await say(on, "weighed A2")
        await on.press("enter")
        assert isinstance(on.app.screen, QuickLine)
        assert "missing: grams" in meant(on)
        assert "as in «weighed BLACK-3 812 g»" in meant(on)
        assert "begin with note:" in meant(on)
        assert on.app.screen.entry.value == "weighed A2"
    assert len(workshop.snapshot().spool_entries) == before


async def test_a_line_that_begins_with_a_verb_and_is_no_fact_is_not_written_down_as_a_note(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop, (80, 24)) as on:
        await say(on, "found a better glue")
        await on.press("enter")
        assert isinstance(on.app.screen, QuickLine)
        assert "begin with note:" in meant(on)
        await on.press("home")
        await on.press(f"{as_keys('note: ')} enter")
    assert [note.text for note in workshop.snapshot().notes] == ["found a better glue"]


async def test_a_line_that_was_left_stands_there_again(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "weighed A2")
        await on.press("escape")
        await on.press(f"colon end {as_keys(' 812')} enter")
        assert not isinstance(on.app.screen, QuickLine)
        await on.press("colon")
        assert on.app.screen.entry.value == ""
    assert workshop.snapshot().spool_entries[-1].gross_mg == 812_000


async def test_typing_replaces_a_line_that_was_left(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "weighed A2")
        await on.press("escape")
        await say(on, "opened A2")
        assert on.app.screen.entry.value == "opened A2"


async def test_the_moment_of_the_line_before_is_offered_behind_the_next_one(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "weighed A2 812 g at 22 Nov 11:00")
        await on.press("enter")
        await say(on, "opened A2")
        assert next(iter(on.app.screen._offers.values())).adds == "at 2026-11-22 11:00"
        await on.press("tab enter")
        await say(on, "the tape peels")
        assert not on.app.screen._offers
        await on.press("enter")
        await say(on, "sealed A2")
        assert not on.app.screen._offers
    assert [(entry.kind, entry.at) for entry in workshop.snapshot().spool_entries[-2:]] == [
        (SpoolEntryKind.WEIGHED, "2026-11-22T10:00:00Z"),
        (SpoolEntryKind.OPENED, "2026-11-22T10:00:00Z"),
    ]


async def test_what_is_refused_names_a_field_as_forms_do(workshop: Ledger, screens: Any) -> None:
    workshop.record(CountPart(part="BRIDGE", pieces=1))
    workshop.record(FitPiece(slot=read_slot("HEAD / BRIDGE")))
    async with screens(workshop) as on:
        await say(on, "fit HEAD-LOOK failed then reprint of TOE")
        await rest(on)
        assert meant(on).startswith("✗ take out and scrap: HEAD-LOOK touches no TOE")


async def test_a_refusal_says_why_and_the_text_stays(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "BIG is up")
        await on.press("enter")
        assert isinstance(on.app.screen, Say)
        await on.press("enter")
        assert on.app.screen.entry.value == "BIG is up"


async def test_what_was_said_in_a_line_is_taken_back_like_anything(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "the glue smells")
        await on.press("enter u y")
    assert workshop.snapshot().notes == ()


async def test_names_stay_offered_while_more_is_typed(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await say(on, "loaded A2 on ")
        assert {"BIG", "TWIN", "OLD"} <= {offer.adds for offer in on.app.screen._offers.values()}
