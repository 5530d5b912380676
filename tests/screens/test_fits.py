"""Fits: keys pressed, the record looked at."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.lots import CountPart
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.proposals.places import read_place, read_slot
from buildlog.proposals.slots import FitPiece
from buildlog.terms import FitOutcome, WhatThen


@pytest.fixture
def measured(workshop: Ledger) -> Ledger:
    """The nose bridge is in; three fits are due on it, one of them on a person."""
    workshop.record(FitPiece(slot=read_slot("HEAD / BRIDGE")))
    for code, name, kind, more in (
        ("NOSE", "bridge sits on the nose", "on-person", {}),
        ("WIDE", "bridge is as wide as the frame", "clearance", {"low": "0.1", "high": "0.3"}),
    ):
        texts = {"code": code, "name": name, "assembly": "HEAD", "parts": "BRIDGE", "kind": kind, **more}
        workshop.record(Add(form_from_texts("fit test", texts)))
    return workshop


def ids_by_code(ledger: Ledger) -> dict[str, int]:
    return {test.code: test.id for test in ledger.snapshot().fit_tests}


async def go_to(on: Any, ledger: Ledger, code: str) -> None:
    grid = on.app.screen.query_one("#fits")
    key = next(key for key in grid.shown_keys if key.startswith(f"fit:{ids_by_code(ledger)[code]}-"))
    grid.move_to(key)
    await on.settle()


async def test_fits_that_ask_for_something_stand_under_what_they_are(measured: Ledger, screens: Any) -> None:
    async with screens(measured) as on:
        await on.press("5")
        assert "to test 3" in on.lines[1]
        assert any("Due: 3 fits, 30 min" in line for line in on.lines)
        line = next(line for line in on.lines if "bridge sits on the nose" in line)
        assert [word in line for word in ("HEAD", "10 min", "to be tested")] == [True] * 3


async def test_a_round_goes_on_to_the_next_fit_after_each_one_recorded(measured: Ledger, screens: Any) -> None:
    async with screens(measured) as on:
        await on.press("5 home r 1 r 1 r 1")
        assert "No fit asks for anything" in on.text
    results = measured.snapshot().fit_results
    assert {result.fit_test_id for result in results} == set(ids_by_code(measured).values())
    assert {result.outcome for result in results} == {FitOutcome.PASSED}


async def test_a_failure_is_recorded_with_what_then_and_stands_first(measured: Ledger, screens: Any) -> None:
    async with screens(measured) as on:
        await on.press("5")
        await go_to(on, measured, "WIDE")
        await on.press("r 2 r e w enter")
        lines = [line for line in on.lines if "Failed: 1 fit" in line or "Due: 2 fits" in line]
        assert "Failed" in lines[0]
    result = measured.snapshot().fit_results[-1]
    assert (result.outcome, result.what_then) == (FitOutcome.FAILED, WhatThen.REWORK)


async def test_a_look_at_one_spot_is_enough_where_a_piece_of_the_same_revision_stands_now(
    measured: Ledger, screens: Any
) -> None:
    for code in ids_by_code(measured):
        measured.record(RecordFit(test=code, place=read_place("HEAD"), outcome="passed"))
    measured.record(CountPart(part="BRIDGE", pieces=1))
    measured.record(FitPiece(slot=read_slot("HEAD / BRIDGE"), old="back to the box"))
    async with screens(measured) as on:
        await on.press("5")
        assert "Look again in one spot" in on.text
        await go_to(on, measured, "WIDE")
        await on.press("r 1")
        wide = f"fit:{ids_by_code(measured)['WIDE']}-"
        assert not [key for key in on.app.screen.query_one("#fits").shown_keys if key.startswith(wide)]
    result = measured.snapshot().fit_results[-1]
    assert (result.outcome, result.spot_check) == (FitOutcome.PASSED, True)


async def test_what_was_measured_judges_the_fit(measured: Ledger, screens: Any) -> None:
    async with screens(measured) as on:
        await on.press("5")
        await go_to(on, measured, "WIDE")
        assert "asks for 0.1 to 0.3 mm" in on.text
        await on.press("r 3 0 . 2 enter")
        await on.press("p")
        await go_to(on, measured, "WIDE")
        assert "last passed 13:00, 0.2 mm" in on.text
    result = measured.snapshot().fit_results[-1]
    assert (result.outcome, result.measured_um) == (FitOutcome.PASSED, 200)


async def test_a_fit_on_a_person_says_the_caution(measured: Ledger, screens: Any) -> None:
    async with screens(measured) as on:
        await on.press("5")
        await go_to(on, measured, "NOSE")
        assert "! on-person" in on.text
        await on.press("r")
        said = " ".join(on.text.split())
        assert measured.snapshot().reference.cautions["on_person"].text.split(".")[0][:40] in said


async def test_passed_and_coming_fits_show_on_demand(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("5")
        assert "crown sits flush" not in on.text
        await on.press("p")
        assert "Not yet: 1 fit" in on.text
        assert "crown sits flush" in on.text
        await on.press("r")
        assert "cannot be tried yet" in on.text
        await on.press("p")
        assert "crown sits flush" not in on.text
    assert workshop.snapshot().fit_results == ()


async def test_enter_leads_to_the_position_on_mirror_and_escape_back(measured: Ledger, screens: Any) -> None:
    async with screens(measured) as on:
        await on.press("5 enter")
        assert on.app.current_mode == "mirror"
        head = next(a.id for a in measured.snapshot().assemblies if a.code == "HEAD")
        assert on.app.screen.query_one("#tree").cursor_key == f"assembly:{head}"
        await on.press("escape")
        assert on.app.current_mode == "fits"


async def test_a_note_is_of_the_fit_under_the_cursor(measured: Ledger, screens: Any) -> None:
    async with screens(measured) as on:
        await on.press("5")
        await go_to(on, measured, "WIDE")
        await on.press("n t i g h t enter")
    note = measured.snapshot().notes[-1]
    assert (note.noun, note.row_id, note.text) == ("fit test", ids_by_code(measured)["WIDE"], "tight")


async def test_an_empty_ledger_leads_in(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("5")
        assert "adds a fit test" in on.text
        await on.press("r")
        assert "No fit stands under the cursor: p shows those passed" in on.text
