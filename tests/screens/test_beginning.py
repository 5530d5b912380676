"""An empty ledger leads in: from the first key to the first blocker on screen, at 80×24."""

from pathlib import Path
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.screens.acts.first_codes import code_from
from buildlog.screens.acts.six_questions import QUESTIONS
from buildlog.screens.dialogs.ask_fields import AskFields
from buildlog.screens.dialogs.say import Say

AT_MOST = 6


async def write(on: Any, text: str) -> None:
    await on.pilot.press(*("space" if letter == " " else letter for letter in text))


def asks(on: Any) -> bool:
    return isinstance(on.app.screen, AskFields)


async def answer_with_defaults(on: Any) -> int:
    """Enter on every question that comes; how many there were."""
    asked = 0
    while asks(on):
        asked += 1
        assert asked <= AT_MOST, on.text
        await on.press("enter")
    return asked


async def test_the_first_screen_says_how_to_begin(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger, size=(80, 24)) as on:
        for way in ("six questions", "buildlog read", "buildlog demo", "9 Things"):
            assert way in on.text
        assert not [line for line in on.lines[2:-2] if "…" in line]
        assert on.app.shown.cursor_key == "begin:ask"


async def test_six_questions_lead_to_the_first_blocker(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger, size=(80, 24)) as on:
        await on.press("enter")
        asked = 0
        for typed in (
            ("Lantern Beetle",),
            ("winter parade", "down", "2027-01-30 18:00"),
            ("large bed", "down", "350", "down", "350", "down", "400"),
            ("petg", "down", "black"),
            ("foreleg",),
            ("shin", "down", "right", "down", "2", "down", "3:40", "down", "96"),
        ):
            assert asks(on), on.text
            asked += 1
            assert f"{asked} of {AT_MOST}" in on.text
            for text in typed:
                await (on.pilot.press(text) if text in ("down", "right") else write(on, text))
            await on.press("enter")
        assert not asks(on), on.text
        assert asked <= AT_MOST
        assert on.app.current_mode == "mirror"
        assert "PETG-BLACK: none left" in on.text
        assert "2 × SHIN L: no file is" in on.text
        assert on.app.shown.row_here() is not None
    snapshot = ledger.snapshot()
    assert [(b.code, b.name) for b in snapshot.builds] == [("LANTERN-BEETLE", "Lantern Beetle")]
    assert [(m.name, m.hard, m.due_at) for m in snapshot.milestones] == [
        ("winter parade", True, "2027-01-30T17:00:00Z")
    ]
    assert [(p.name, p.bed_x_um, p.bed_z_um) for p in snapshot.printers] == [("large bed", 350_000, 400_000)]
    assert [p.printer_class for p in snapshot.printers] == ["bed 350x350"]
    assert [(m.code, m.name) for m in snapshot.materials] == [("PETG-BLACK", "black PETG")]
    assert [(a.name, a.paired) for a in snapshot.assemblies] == [("Lantern Beetle", False), ("foreleg", True)]
    assert len(snapshot.positions) == 3
    assert [(p.name, p.handed) for p in snapshot.parts] == [("shin", True)]
    assert [usage.quantity for usage in snapshot.usages] == [2]
    assert [(r.print_minutes) for r in snapshot.revisions] == [220]
    assert [d.part_mg for d in snapshot.demands] == [96_000]
    assert ledger.check() == []


async def test_every_question_has_an_answer_that_stands_there_already(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger, size=(80, 24)) as on:
        await on.press("enter")
        assert await answer_with_defaults(on) == len(QUESTIONS) == AT_MOST
        assert on.app.current_mode == "mirror"
        leaves = [leaf for leaves in on.app.status.blockers.leaves.values() for leaf in leaves]
        assert leaves
        assert any(leaf.text in on.text for leaf in leaves), on.text
    snapshot = ledger.snapshot()
    assert snapshot.milestones == (), "a day that nobody typed is not recorded"
    assert ledger.check() == []


@pytest.mark.parametrize("answered", range(AT_MOST))
async def test_leaving_loses_nothing_and_enter_goes_on_where_it_was(
    ledger: Ledger, screens: Any, answered: int
) -> None:
    async with screens(ledger, size=(80, 24)) as on:
        await on.press("enter")
        for _ in range(answered):
            await on.press("enter")
        await on.press("escape")
        assert not asks(on)
        assert len(ledger.snapshot().builds) == min(answered, 1)
        await on.press("home enter")
        skipped = 1 if answered > 1 else 0  # the event, which was passed over without a day, is asked again
        assert await answer_with_defaults(on) == AT_MOST - answered + skipped
        assert on.app.current_mode == "mirror"
    assert len(ledger.snapshot().parts) == 1


async def test_what_was_answered_can_be_undone_question_by_question(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("enter enter escape u y")
        assert [b.retired_at for b in ledger.snapshot().builds] == []
        assert ledger.snapshot().assemblies == ()


async def test_figures_of_the_first_part_do_not_go_into_its_name(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("enter enter enter enter enter enter")
        await write(on, "cross member x3, 2,5h")
        await on.press("enter")
        assert asks(on)
        assert "«x3, 2,5h» stands in the name" in on.text
    assert ledger.snapshot().parts == ()


async def test_a_smelly_material_is_told_while_it_is_typed(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("enter enter enter enter")
        await write(on, "abs")
        assert "styrene" in on.text


async def test_the_demo_tells_its_command(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger, size=(80, 24)) as on:
        await on.press("down down enter")
        assert isinstance(on.app.screen, Say)
        assert "buildlog demo" in on.text


async def test_enter_reads_files_into_an_empty_ledger(ledger: Ledger, screens: Any, tmp_path: Path) -> None:
    build = tmp_path / "builds.csv"
    build.write_text("code,name\nLB,Lantern Beetle\n")
    async with screens(ledger, size=(80, 24)) as on:
        await on.press("down enter")
        await on.fill({"files": str(build)})
        await on.press("enter enter")
    assert [one.code for one in ledger.snapshot().builds] == ["LB"]


async def test_by_hand_leads_to_the_forms(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("down down down enter")
        assert on.app.current_mode == "things"
        assert on.app.shown.noun_here == "build"


async def test_with_a_part_on_the_record_nothing_leads_in_any_more(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        assert "six questions" not in on.text
        assert "on with the questions" not in on.text


def test_codes_are_made_of_names() -> None:
    assert code_from("Lantern Beetle", (), "BUILD") == "LANTERN-BEETLE"
    assert code_from("Lantern Beetle", ("LANTERN-BEETLE",), "BUILD") == "LANTERN-BEETLE-2"
    assert code_from("vordere Flügeldecke links", (), "ASSEMBLY") == "VORDERE"
    assert code_from("élytre", (), "PART") == "ELYTRE"
    assert code_from("左前脚", (), "PART") == "PART"
    assert code_from("", ("FIT-TEST",), "fit test") == "fit-test"
