"""Forms: words that must match what is known are offered, and told where they match nothing."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.prints import FailPrint
from buildlog.proposals.spools import WeighSpool
from buildlog.status.forms import form_of


async def test_a_files_class_is_offered_from_those_of_printers_and_another_is_taken_with_a_caution(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("print file")
        await on.press("a")
        await on.fill({"code": "F-CLAW", "printer_class": "b"})
        assert "› BIG  tab" in on.text
        assert "No printer" not in on.text
        await on.press("ctrl+u")
        await on.fill({"printer_class": "small", "lines": "TOE", "print_time": "40", "material": "ABS-BLACK"})
        assert "No printer is of class «small» (there are BIG): until one is, nothing can run this" in on.sentences
        await on.fill({"grams": "20"})
        await on.press("enter")
    assert form_of(workshop.snapshot(), "print file", "F-CLAW").printer_class == "small"


async def test_what_a_part_needs_is_offered_from_what_printers_can(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("printer")
        await on.press("enter e")
        await on.fill({"capabilities": "encl"})
        assert "› enclosed  tab" in on.text
        await on.press("tab enter")
        assert form_of(workshop.snapshot(), "printer", on.app.screen.key_here).capabilities == "enclosed"
        await on.go_to_noun("part")
        await on.press("enter e")
        await on.fill({"needs": "enclosd"})
        assert "No printer can «enclosd» (they can enclosed): until one does, nothing can print this" in on.sentences
        await on.press("backspace")
        assert "› enclosed  tab" in on.text
        await on.press("tab enter")
        assert form_of(workshop.snapshot(), "part", on.app.screen.key_here).needs == "enclosed"


async def test_a_demand_offers_polymers_and_tells_of_one_that_no_material_has(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("print file")
        await on.press("enter e")
        await on.fill({"material": "any pal"})
        assert "No material is of polymer PAL (there are PLA, ABS)" in on.sentences
        await on.press("ctrl+u")
        await on.fill({"material": "any p"})
        assert "› any PLA  tab" in on.text
        await on.press("tab enter")
        ask = form_of(workshop.snapshot(), "print file", on.app.screen.key_here).material
    assert (ask.material, ask.polymer) == (None, "PLA")


@pytest.mark.parametrize("keys", ["x", "f 2"])
async def test_why_prints_failed_before_is_offered_as_the_cause(workshop: Ledger, screens: Any, keys: str) -> None:
    workshop.record(FailPrint(printer="TWIN", cause="warped off the bed"))
    workshop.record(WeighSpool(spool="A1", gross=800_000, cause="scale was wet"))
    async with screens(workshop) as on:
        await on.press(keys)
        await on.fill({"cause": "w"} if keys == "x" else {"outcomes": "SHIN L scrap", "cause": "w"})
        assert "› warped off the bed  tab" in on.text
        assert "scale was wet" not in on.text
        await on.press("tab enter")
    snapshot = workshop.snapshot()
    shins = next(job for job in snapshot.jobs if job.name == "Both shins")
    assert "warped off the bed" in {line.cause for line in snapshot.job_lines if line.job_id == shins.id}


async def test_a_kind_typed_out_is_that_kind_and_brings_its_caution(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("step")
        await on.press("a")
        await on.fill({"code": "LEG-GLUE", "name": "glue the leg", "assembly": "LEG"})
        await on.go_to_field("kind")
        await on.press("s o l v")
        assert "[solvent bond]" in on.text
        assert "vapour" in on.text
        await on.fill({"bench_time": "20"})
        await on.press("enter")
    assert form_of(workshop.snapshot(), "step", "LEG-GLUE").kind == "solvent bond"


async def test_a_choice_is_picked_by_its_first_letter_and_time_is_written_in_minutes(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("step")
        await on.press("a")
        await on.fill({"code": "LEG-WIRE", "name": "wire the leg", "assembly": "LEG"})
        await on.go_to_field("kind")
        assert "← → or its first letters" in on.text
        await on.press("w")
        await on.fill({"bench_time": "95"})
        assert "h:mm or minutes" in on.text
        assert "bench time*" in on.text
        await on.press("enter")
    step = form_of(workshop.snapshot(), "step", "LEG-WIRE")
    assert (step.kind, step.bench_time) == ("wire", 95)


async def test_left_and_esc_lead_from_the_things_of_a_noun_back_to_the_nouns(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("printer")
        for there, back in (("right", "left"), ("enter", "escape"), ("tab", "left")):
            await on.press(there)
            assert on.app.focused.id == "things"
            await on.press(back)
            assert (on.app.focused.id, on.app.screen.noun_here) == ("nouns", "printer")
        await on.press("right slash t w enter escape")
        assert on.app.focused.id == "things", "esc shows all again before it goes back"
        await on.press("e")
        await on.fill({"name": "Two of them"})
        await on.press("enter escape escape")
        assert on.app.current_mode == "today"
    assert [printer.name for printer in workshop.snapshot().printers] == ["Big bed", "Two of them", "Old one"]


async def test_the_cursor_is_seen_where_a_noun_has_nothing_or_nothing_more(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("wait")
        await on.press("right tab")
        assert on.app.focused.id == "nouns"
        await on.go_to_noun("milestone")
        await on.press("enter x y")
        assert on.app.focused.id == "nouns"
    assert all(milestone.retired_at is not None for milestone in workshop.snapshot().milestones)


async def test_what_can_only_be_one_thing_stands_there_already(ledger: Ledger, screens: Any, add: Any) -> None:
    add("build", code="LB", name="Lantern Beetle")
    add("printer", code="BIG", name="Big", printer_class="large", bed_x="300", bed_y="300", bed_z="300")
    add("supplier", code="FIL", name="filament house")
    async with screens(ledger) as on:
        for noun, texts in (
            ("material", {"code": "PLA-RED", "name": "Red PLA", "polymer": "PLA"}),
            ("spool", {"code": "R1"}),
            ("assembly", {"code": "LEG", "name": "Leg"}),
            ("part", {"code": "SHIN", "name": "Shin", "assembly": "LEG"}),
            ("part", {"code": "TOE", "name": "Toe", "print_time": "30", "grams": "12"}),
            ("print file", {"code": "F1", "lines": "TOE x4", "print_time": "2h", "grams": "48"}),
        ):
            await on.go_to_noun(noun)
            await on.press("a")
            await on.fill(texts)
            await on.press("enter")
            assert not on.app.screen.is_modal, on.sentences
    snapshot = ledger.snapshot()
    red = form_of(snapshot, "material", "PLA-RED")
    shin, toe = (form_of(snapshot, "part", code) for code in ("SHIN", "TOE"))
    file = form_of(snapshot, "print file", "F1")
    assert red.supplier == "FIL"
    assert form_of(snapshot, "spool", "R1").material == "PLA-RED"
    assert (shin.build, shin.material, toe.material.material) == ("LB", None, "PLA-RED")
    assert (file.printer_class, file.material.material) == ("large", "PLA-RED")


async def test_a_wish_names_the_only_thing_there_is_by_itself(ledger: Ledger, screens: Any, add: Any) -> None:
    add("material", code="PLA-RED", name="Red PLA", polymer="PLA")
    async with screens(ledger) as on:
        await on.press("4 e 1")
        assert "PLA-RED" in on.text
        await on.press("enter")
    assert [spool.code for spool in ledger.snapshot().spools] == ["PLA-RED-01"]


async def test_known_names_say_how_they_are_listed_and_a_code_how_it_is_written(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("box")
        await on.press("a")
        assert "letters, digits, dot, dash, underscore" in on.text
        await on.press("escape")
        await on.go_to_noun("usage")
        await on.press("a")
        await on.go_to_field("part")
        assert "known: " in on.text
        assert "pgdn lists them" in on.sentences
        await on.press("pagedown pagedown tab")
        await on.fill({"quantity": "2"})
        await on.press("enter")
    snapshot = workshop.snapshot()
    usage = snapshot.usages[-1]
    assert (snapshot.part[usage.part_id].code, usage.quantity) == ("TOE", 2)
