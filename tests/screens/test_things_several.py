"""Things: one change to all marked rows, and an assembly told with its parts: one group of the journal each."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.assemblies import AddAssemblyWithParts
from buildlog.proposals.nouns import FORMS, Add, Change, form_from_texts, noun_fields
from buildlog.screens.acts.things_several import EMPTIED, ForAll, lowest_first
from buildlog.status.forms import form_of, forms_of, keys_of, retired_of
from buildlog.terms import SideRule

SIZES = [(80, 24), (120, 40)]


def words(on: Any) -> str:
    return " ".join(on.text.replace("▌", " ").split())


async def mark(on: Any, noun: str, *keys: str) -> None:
    """Go to the noun, and mark these things of it."""
    await on.press("9")
    on.app.screen.nouns.move_to(f"noun:{noun}")
    on.app.screen.things.focus()
    await on.settle()
    for key in keys:
        on.app.screen.things.move_to(f"thing:{noun}:{key}")
        await on.press("space")
    assert on.app.screen.keys_here == keys


async def type_into(on: Any, name: str, text: str) -> None:
    on.app.screen._entries[name].focus()
    await on.settle()
    if hasattr(on.app.focused, "picked"):
        while on.app.focused.text != text:
            await on.pilot.press("right")
    else:
        await on.pilot.press(*("space" if c == " " else c for c in text))
    await on.settle()


@pytest.mark.parametrize("size", SIZES)
async def test_what_is_filled_in_goes_for_all_marked_in_one_group(workshop: Ledger, screens: Any, size: Any) -> None:
    groups = len(workshop.journal(1000))
    before = forms_of(workshop.snapshot(), "part")
    async with screens(workshop, size=size) as on:
        await mark(on, "part", "SHIN", "TOE", "VISOR")
        await on.press("e")
        assert "Change 3 parts" in on.text
        await type_into(on, "stage", "proven")
        await type_into(on, "nozzle", "0.6")
        await on.press("enter")
        assert "Changed 3 parts: stage, nozzle." in on.text
        assert on.app.screen.things.marked == ()
    after = forms_of(workshop.snapshot(), "part")
    assert len(workshop.journal(1000)) == groups + 1
    for key, form in after.items():
        changed = {f.name for f in noun_fields("part") if getattr(form, f.name) != getattr(before[key], f.name)}
        assert changed == ({"stage", "nozzle"} if key in ("SHIN", "TOE", "VISOR") else set()), key
        assert (form.stage, form.nozzle) == ("proven", 600) or not changed


async def test_a_no_for_several_is_told_as_a_no(workshop: Ledger, screens: Any) -> None:
    for key in ("BIG", "TWIN"):
        workshop.record(Change("printer", key, {"runs_unattended": True}))
    async with screens(workshop) as on:
        await mark(on, "printer", "BIG", "TWIN")
        await on.press("e")
        await type_into(on, "runs_unattended", "no")
        await on.press("enter")
        assert "Changed 2 printers: runs unattended: no." in on.text
    assert not form_of(workshop.snapshot(), "printer", "TWIN").runs_unattended


async def test_the_form_for_several_says_what_they_say_now_and_a_dash_empties(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await mark(on, "material", "PLA-AMBER", "ABS-BLACK")
        await on.press("e")
        await type_into(on, "polymer", "")
        assert "now PLA, ABS" in on.text
        await type_into(on, "supplier", "NOBODY")
        assert "✗ There is no supplier «NOBODY»" in on.text
        await on.press("home")
        for _ in "NOBODY":
            await on.press("delete")
        await type_into(on, "supplier", "-")
        await on.press("enter")
    snapshot = workshop.snapshot()
    assert [form_of(snapshot, "material", key).supplier for key in ("PLA-AMBER", "ABS-BLACK")] == [None, None]


async def test_what_goes_with_one_and_not_with_another_is_said_before_enter(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await mark(on, "supplier", "FIL")
        await on.press("9")  # a lone mark is one thing, asked by its own form
        await on.press("e")
        assert "Change supplier FIL" in on.text
        await on.press("escape")
        await mark(on, "print file", "F-SHIN", "F-TOES")
        await on.press("e")
        await type_into(on, "material", "-")
        assert "material" in on.text
        await on.press("enter")
        assert "Change 2 print files" in on.text, "a required field cannot be emptied"
        await on.press("escape")
    assert workshop.journal(1)[0].action != "several"


async def test_nothing_filled_in_changes_nothing(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await mark(on, "part", "SHIN", "TOE")
        await on.press("e enter")
        assert "Nothing was changed." in on.text
        assert on.app.screen.keys_here == ("SHIN", "TOE")


async def test_marked_things_are_retired_as_one_and_come_back_as_one(workshop: Ledger, screens: Any) -> None:
    for code in ("VAN", "SHELF", "DRAWER"):
        workshop.record(Add(form_from_texts("box", {"code": code, "name": code.lower()})))
    groups = len(workshop.journal(1000))
    async with screens(workshop) as on:
        await mark(on, "box", "VAN", "DRAWER")
        await on.press("x")
        assert "Retire 2 boxes?" in on.text
        await on.press("y")
        assert set(retired_of(workshop.snapshot(), "box")) == {"VAN", "DRAWER"}
        assert len(workshop.journal(1000)) == groups + 1
        await on.press("u y")
    assert set(keys_of(workshop.snapshot(), "box")) == {"VAN", "SHELF", "DRAWER"}


async def test_one_that_cannot_go_keeps_the_others(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await mark(on, "material", "PLA-AMBER", "ABS-BLACK")
        await on.press("x y")
        assert "Nothing was recorded" in on.text
        await on.press("enter")
    assert set(keys_of(workshop.snapshot(), "material")) == {"PLA-AMBER", "ABS-BLACK"}


def test_the_leaves_of_the_tree_go_first(workshop: Ledger) -> None:
    assert lowest_first(workshop.snapshot(), "assembly", ("BEETLE", "LEG")) == ["LEG", "BEETLE"]


@pytest.mark.parametrize("noun", [noun for noun in FORMS if noun != "settings"])
def test_every_field_can_be_asked_for_several(noun: str) -> None:
    for field in noun_fields(noun):
        asked = ForAll(field, "x")
        assert asked.parse("") is None
        if field.required or field.default not in (None, "", ()):
            continue
        assert asked.parse("none" if field.choices else "-") is EMPTIED


@pytest.mark.parametrize("size", SIZES)
async def test_an_assembly_and_its_parts_are_one_form_and_one_group(
    workshop: Ledger, screens: Any, size: Any
) -> None:
    groups = len(workshop.journal(1000))
    async with screens(workshop, size=size) as on:
        await on.press("9 p")
        assert "Add an assembly with its parts" in on.text
        for name, text in {
            "code": "PAW",
            "name": "paw",
            "build": "LB",
            "parent": "BEETLE",
            "paired": "yes",
            "material": "PLA-AMBER",
            "part_1": "FL07 shin handed x1 2:30 45g",
            "part_2": "FL08 claw x2",
            "part_3": "TOE x3",
        }.items():
            await type_into(on, name, text)
        assert "✗" not in on.text
        await on.press("enter")
        assert "Added assembly PAW paw, paired, left and right, with FL07 shin handed ×1" in words(on), on.text
        assert on.app.screen.noun_here == "assembly"
        assert on.app.screen.key_here == "PAW"
    snapshot = workshop.snapshot()
    assert len(workshop.journal(1000)) == groups + 1
    assert form_of(snapshot, "assembly", "PAW").paired
    shin, claw = form_of(snapshot, "part", "FL07"), form_of(snapshot, "part", "FL08")
    assert (shin.handed, shin.quantity, shin.print_time, shin.grams, shin.assembly) == (True, 1, 150, 45_000, "PAW")
    assert (claw.handed, claw.quantity, claw.material) == (False, 2, None)
    assert form_of(snapshot, "usage", "PAW/TOE").quantity == 3
    assert form_of(snapshot, "usage", "PAW/FL07").side_rule == SideRule.AS_POSITION


async def test_an_assembly_with_parts_starts_paired_as_the_last_one_was(workshop: Ledger, screens: Any) -> None:
    workshop.record(AddAssemblyWithParts(code="DRUM", name="drum", parent="BEETLE", paired=False))
    async with screens(workshop) as on:
        await on.press("9 p")
        await type_into(on, "code", "PAW")
        await type_into(on, "name", "paw")
        await type_into(on, "parent", "BEETLE")
        await on.press("enter")
        assert "PAW paw, not paired" in on.text
    assert not form_of(workshop.snapshot(), "assembly", "PAW").paired


async def test_a_handed_part_asks_for_a_side_before_anything_is_recorded(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("9 p")
        for name, text in {"code": "PAW", "name": "paw", "parent": "BEETLE", "part_1": "FL07 shin handed"}.items():
            await type_into(on, name, text)
        assert on.app.screen._entries["paired"].text == "no"
        await on.press("enter")
        assert "FL07 is handed: say yes, or write L only" in words(on)
        await type_into(on, "paired", "yes")
        await on.press("enter")
    assert form_of(workshop.snapshot(), "part", "FL07").handed


async def test_each_line_of_parts_says_what_is_wrong_with_it(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("9 p")
        await type_into(on, "part_1", "TOE toe")
        assert "without a name it is used" in words(on)
        await type_into(on, "part_2", "FL09")
        assert "FL09 is new: write its name" in words(on)
        await type_into(on, "part_3", "FL10 fin x0")
        assert "✗ a quantity of 0" in on.text
        await type_into(on, "part_4", "FL11 fin PLA-AMBER 12g")
        assert "PLA-AMBER is a material: write it behind the grams" in words(on)
        await type_into(on, "part_5", "FL11 fin 12g PLA-BLUE")
        assert "there is no material PLA-BLUE" in words(on)
        await type_into(on, "part_6", "FL11 fin 2 12g")
        assert "«2» is not understood" in words(on)
        await on.press("escape")
    assert "FL10" not in keys_of(workshop.snapshot(), "part")
