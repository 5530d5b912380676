"""Mirror as an editor: keys pressed, the record looked at."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.lines import Target
from buildlog.proposals.lots import CountPart
from buildlog.proposals.nouns import Add, Change, form_from_texts
from buildlog.proposals.places import read_slot
from buildlog.proposals.slots import FitPiece
from buildlog.screens.acts.tree import forms_here, new_here
from buildlog.status.forms import form_of, forms_of, keys_of, retired_of
from buildlog.terms import OldGoodFor, Side


def words(on: Any) -> str:
    return " ".join(on.text.replace("▌", " ").split())


async def at(on: Any, ledger: Ledger, code: str) -> None:
    """Mirror with the cursor of the tree on an assembly."""
    await on.press("2")
    found = next(a.id for a in ledger.snapshot().assemblies if a.code == code)
    assert on.app.screen.tree_grid.move_to(f"assembly:{found}")
    on.app.screen.tree_grid.focus()
    await on.settle()


async def pick(on: Any, *labels: str) -> None:
    """Take the line of a choice that begins with each of these, by its number or by going down to it."""
    for label in labels:
        grid = on.app.screen.query_one("#choices")
        key = next(row.key for row in grid.view.rows if row.cells[1].text.strip().startswith(label))
        await on.press(" ".join(["home", *["down"] * int(key), "enter"]))


async def type_into(on: Any, **texts: str) -> None:
    for name, text in texts.items():
        on.app.screen._entries[name].focus()
        await on.settle()
        if hasattr(on.app.focused, "picked"):
            while on.app.focused.text != text:
                await on.pilot.press("right")
        elif text:
            await on.pilot.press(*("space" if c == " " else c for c in text))
        else:
            await on.pilot.press("delete")
        await on.settle()


@pytest.fixture
def paired(workshop: Ledger) -> Ledger:
    """With a fit that can prove the left leg, and a shin in it."""
    workshop.record(
        Add(
            form_from_texts(
                "fit test",
                {"code": "LEG-FIT", "name": "leg holds", "assembly": "LEG", "kind": "load", "parts": "SHIN, TOE"},
            )
        )
    )
    return workshop


async def test_an_assembly_is_moved_with_all_beneath_it(workshop: Ledger, screens: Any) -> None:
    workshop.record(
        Add(form_from_texts("assembly", {"code": "FOOT", "name": "foot", "build": "LB", "parent": "LEG"}))
    )
    async with screens(workshop) as on:
        await at(on, workshop, "FOOT")
        await on.press("m")
        assert "FOOT" not in [row.cells[1].text.strip() for row in on.app.screen.query_one("#choices").view.rows]
        await pick(on, "HEAD")
        assert form_of(workshop.snapshot(), "assembly", "FOOT").parent == "HEAD"
        await at(on, workshop, "BEETLE")
        await on.press("m")
        assert "no place to move to" in on.text


async def test_what_cannot_be_moved_there_is_refused_in_words(workshop: Ledger, screens: Any) -> None:
    workshop.record(
        Add(
            form_from_texts(
                "assembly", {"code": "ARM", "name": "arm", "build": "LB", "parent": "BEETLE", "paired": "yes"}
            )
        )
    )
    async with screens(workshop) as on:
        await at(on, workshop, "ARM")
        await on.press("m")
        await pick(on, "LEG")
        assert "Nothing was recorded" in on.text
        await on.press("enter")
    assert form_of(workshop.snapshot(), "assembly", "ARM").parent == "BEETLE"


async def test_an_assembly_is_ranked_beside_the_others(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await at(on, workshop, "HEAD")
        await on.press("e")
        await pick(on, "rank it")
        assert "beside LEG –" in on.text
        await on.press("1 enter")
    assert form_of(workshop.snapshot(), "assembly", "HEAD").rank == 1


async def test_the_lead_side_and_its_fit_are_set_and_cleared(paired: Ledger, screens: Any) -> None:
    async with screens(paired) as on:
        await at(on, paired, "LEG")
        await on.press("e")
        await pick(on, "lead side")
        await type_into(on, lead_side="L", lead_test="LEG-FIT")
        await on.press("enter")
        leg = form_of(paired.snapshot(), "assembly", "LEG")
        assert (leg.lead_side, leg.lead_test) == (Side.LEFT, "LEG-FIT")
        await on.press("e")
        await pick(on, "lead side")
        await type_into(on, lead_side="", lead_test="")
        await on.press("enter")
        leg = form_of(paired.snapshot(), "assembly", "LEG")
        assert (leg.lead_side, leg.lead_test) == (None, None)
        await at(on, paired, "HEAD")
        await on.press("e")
        await pick(on, "lead side")
        assert "HEAD is not paired" in on.text


NEW: dict[str, tuple[str, dict[str, str], str]] = {
    "usage": ("usages", {"part": "TOE", "quantity": "2"}, "HEAD/TOE"),
    "step": ("steps", {"code": "HEAD-GLUE", "name": "glue", "kind": "bond", "bench_time": "0:20"}, "HEAD-GLUE"),
    "wait": ("waits", {"on_assembly": "LEG"}, "HEAD//LEG/"),
    "question": ("questions", {"code": "Q7", "text": "which bulb?"}, "Q7"),
    "fit test": ("fits", {"code": "HEAD-FIT", "name": "fits", "kind": "clearance", "parts": "VISOR"}, "HEAD-FIT"),
    "part": ("parts", {"code": "JAW", "name": "jaw"}, "JAW"),
}


@pytest.mark.parametrize("noun", NEW)
@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_what_belongs_to_an_assembly_is_added_changed_and_retired_there(
    workshop: Ledger, screens: Any, noun: str, size: Any
) -> None:
    label, texts, key = NEW[noun]
    async with screens(workshop, size=size) as on:
        await at(on, workshop, "HEAD")
        await on.press("e")
        await pick(on, label)
        if on.app.screen.query("#choices"):
            await pick(on, "add ")
        await type_into(on, **texts)
        await on.press("enter")
        snapshot = workshop.snapshot()
        head = next(a for a in snapshot.assemblies if a.code == "HEAD")
        assert key in forms_here(snapshot, noun, head), on.text
        await on.press("e")
        await pick(on, label, key, "change")
        assert f"Change {noun} {key}" in on.text
        await on.press("escape e")
        await pick(on, label, key, "retire")
        await on.press("y")
        if noun == "part":
            assert "still needed by" in words(on)
            await on.press("enter e")
            await pick(on, "usages", f"HEAD/{key}", "retire")
            await on.press("y e")
            assert f"HEAD/{key}" not in keys_of(workshop.snapshot(), "usage")
            return
    assert key in retired_of(workshop.snapshot(), noun), on.text


async def test_a_question_at_a_blocker_holds_that_side_only(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await at(on, workshop, "LEG")
        on.app.screen.query_one("#right-side Grid").focus()
        await on.press("e")
        await pick(on, "questions")
        await type_into(on, code="Q8", text="how stiff?")
        await on.press("enter")
    assert form_of(workshop.snapshot(), "question", "Q8").holds == (Target("LEG", Side.RIGHT),)


async def test_an_assembly_with_parts_is_added_beneath_the_row(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await at(on, workshop, "HEAD")
        await on.press("p")
        await type_into(on, code="EYE", name="eye", paired="yes", part_1="EY1 lens handed")
        await on.press("enter")
        assert on.app.screen.row_here().assembly_id == workshop.snapshot().assemblies[-1].id
    eye = form_of(workshop.snapshot(), "assembly", "EYE")
    assert (eye.parent, eye.build, eye.paired) == ("HEAD", "LB", True)
    assert form_of(workshop.snapshot(), "part", "EY1").assembly == "EYE"


async def test_the_assembly_itself_is_changed_and_retired_there(workshop: Ledger, screens: Any) -> None:
    workshop.record(
        Add(form_from_texts("assembly", {"code": "TAIL", "name": "Tail", "build": "LB", "parent": "BEETLE"}))
    )
    async with screens(workshop) as on:
        await at(on, workshop, "TAIL")
        await on.press("e")
        await pick(on, "change TAIL")
        await type_into(on, name="Tail end")
        await on.press("enter")
        assert form_of(workshop.snapshot(), "assembly", "TAIL").name == "Tail end"
        await on.press("e")
        await pick(on, "retire it")
        await on.press("y")
    assert "TAIL" in retired_of(workshop.snapshot(), "assembly")


async def test_revising_asks_what_old_ones_are_good_for_on_each_side_and_what_changes_with_it(
    paired: Ledger, screens: Any
) -> None:
    async with screens(paired) as on:
        await at(on, paired, "LEG")
        await on.press("v")
        await pick(on, "SHIN")
        names = list(on.app.screen._entries)
        assert names[:3] == ["what_changed", "old", "old_other"]
        assert [on.app.screen._entries[name].text for name in ("old", "old_other")] == ["still good", "still good"]
        await type_into(on, what_changed="a rib more", old="no good", print_time="5:30")
        await on.press("enter")
        assert "SHIN is revised: what has to change with it?" in on.text
        assert "TOE" in on.text
        assert "fit LEG-FIT" in on.text
        await on.press("space enter")
        assert "Revise TOE" in on.text
        assert on.app.screen._entries["what_changed"].text == "with SHIN"
        await on.press("enter enter")
    snapshot = paired.snapshot()
    newest = {snapshot.part[r.part_id].code: r for r in snapshot.revisions if r.letter == "B"}
    shin = newest["SHIN"]
    assert (shin.old_left, shin.old_right) == (OldGoodFor.NO_GOOD, OldGoodFor.STILL_GOOD)
    assert (shin.what_changed, shin.print_minutes) == ("a rib more", 330)
    assert (newest["TOE"].old_left, newest["TOE"].what_changed) == (OldGoodFor.STILL_GOOD, "with SHIN")


async def test_leaving_the_question_what_changes_with_it_records_nothing(paired: Ledger, screens: Any) -> None:
    async with screens(paired) as on:
        await at(on, paired, "LEG")
        await on.press("v")
        await pick(on, "SHIN")
        await on.press("enter escape")
    assert {r.letter for r in paired.snapshot().revisions} == {"A"}


@pytest.fixture
def bonded(paired: Ledger) -> Ledger:
    """The left leg is bonded, with a shin in it."""
    paired.record(Change("assembly", "LEG", {"joined": "bonded"}))
    paired.record(CountPart(part="SHIN", side="L", pieces=1))
    paired.record(FitPiece(slot=read_slot("LEG L / SHIN")))
    return paired


async def test_where_pieces_are_bonded_in_it_asks_to_remake_patch_or_leave(bonded: Ledger, screens: Any) -> None:
    async with screens(bonded) as on:
        await at(on, bonded, "LEG")
        await on.press("v")
        await pick(on, "SHIN")
        await type_into(on, old="stand-ins")
        await on.press("enter")
        assert "pieces are bonded in at LEG" in words(on)
        assert on.app.focused.name == "bonded"
        await type_into(on, bonded="leave")
        await on.press("enter")
        assert "bonded in LEG" in on.text
        await on.press("enter")
    assert [f.left_as_is for f in bonded.snapshot().fittings] == [True]


async def test_a_part_is_superseded_by_a_new_one_in_the_same_usages(bonded: Ledger, screens: Any) -> None:
    async with screens(bonded) as on:
        await at(on, bonded, "LEG")
        await on.press("e")
        await pick(on, "supersede", "SHIN", "a new part")
        await type_into(on, code="SHINB", name="Shin, ribbed")
        await on.press("enter")
        await type_into(on, bonded="patch")
        await on.press("enter enter")
    snapshot = bonded.snapshot()
    old, new = (next(p for p in snapshot.parts if p.code == code) for code in ("SHIN", "SHINB"))
    assert (old.superseded_by_id, new.handed) == (new.id, True)
    assert form_of(snapshot, "usage", "LEG/SHINB").quantity == 1
    assert "LEG/SHIN" not in keys_of(snapshot, "usage")
    assert all(f.until_at is not None for f in snapshot.fittings)


async def test_the_part_of_a_blocker_is_revised_at_once(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await at(on, workshop, "HEAD")
        grid = on.app.screen.query_one("#left-side Grid")
        key = next(row.key for row in grid.view.rows if "visor" in row.words() and ":" in row.key)
        grid.move_to(key)
        grid.focus()
        await on.press("v")
        assert "Revise VISOR" in on.text
        assert "old_other" not in on.app.screen._entries
        await on.press("enter")
    assert forms_of(workshop.snapshot(), "part")["VISOR"].revision == "B"


async def test_an_empty_tree_begins_with_its_first_assembly(ledger: Ledger, screens: Any) -> None:
    ledger.record(Add(form_from_texts("build", {"code": "LB", "name": "Lantern Beetle"})))
    async with screens(ledger) as on:
        await on.press("2 e")
        await type_into(on, code="BEETLE", name="Beetle")
        await on.press("enter")
    assert keys_of(ledger.snapshot(), "assembly") == ("BEETLE",)


async def test_the_root_and_what_is_beneath_it_come_by_the_same_form(ledger: Ledger, screens: Any) -> None:
    ledger.record(Add(form_from_texts("build", {"code": "LB", "name": "Lantern Beetle"})))
    async with screens(ledger) as on:
        await on.press("2 p")
        await type_into(on, code="BEETLE", name="Beetle")
        await on.press("enter p")
        assert on.app.screen._entries["paired"].text == "yes"
        await type_into(on, code="LEG", name="Leg", part_1="FL07 shin handed", part_2="FL08 knee x2")
        await on.press("enter p")
        assert on.app.screen._entries["paired"].text == "no", "beneath a paired one there are sides already"
        await on.press("escape")
    snapshot = ledger.snapshot()
    assert [(a.code, a.paired) for a in snapshot.assemblies] == [("BEETLE", False), ("LEG", True)]
    assert form_of(snapshot, "usage", "LEG/FL08").quantity == 2


def test_a_new_thing_starts_from_the_last_one_of_its_assembly(workshop: Ledger) -> None:
    snapshot = workshop.snapshot()
    head = next(a for a in snapshot.assemblies if a.code == "HEAD")
    step = new_here(snapshot, "step", head, None)
    assert (step["code"], step["kind"], step["bench_time"], step["assembly"]) == ("HEAD-SAND-2", "sand", 40, "HEAD")
    beetle = next(a for a in snapshot.assemblies if a.code == "BEETLE")
    assert new_here(snapshot, "fit test", beetle, None)["code"] == "BEETLE-1"
    assert new_here(snapshot, "question", head, Side.LEFT)["holds"] == (Target("HEAD", Side.LEFT),)
