"""Boxes: each key is pressed, and the record looked at."""

from pathlib import Path
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.forms_shop import Box
from buildlog.proposals.lots import CountPart
from buildlog.proposals.nouns import Add, Change
from buildlog.status.boxes import lay_boxes
from buildlog.status.status import take_stock
from buildlog.terms import later

SIZES = ((80, 24), (120, 40))


@pytest.fixture
def boxed(workshop: Ledger) -> Ledger:
    """Four toes and the screws on SHELF, CRATE is empty; a helper can do what is open on the head."""
    for form in (Box(code="SHELF", name="shelf", place="workshop"), Box(code="CRATE", name="crate")):
        workshop.record(Add(form))
    workshop.record(CountPart(part="TOE", pieces=4, box="SHELF"), later(workshop.now(), -120))
    workshop.record(Change("bought item", "SCREW", {"box": "SHELF"}))
    for step in workshop.snapshot().steps:
        workshop.record(Change("step", step.code, {"helper_can": True}))
    return workshop


def laid(ledger: Ledger) -> dict[str, list[tuple[str, int]]]:
    """Part and pieces by code of the box."""
    snapshot = ledger.snapshot()
    codes = {box.id: box.code for box in snapshot.boxes}
    boxes = lay_boxes(take_stock(snapshot, ledger.now()))
    return {
        codes.get(box_id or 0, ""): [(snapshot.part[x.lot.part_id].code, x.pieces) for x in contents.lots]
        for box_id, contents in boxes.of.items()
    }


async def to_toes(on: Any) -> None:
    """To the toes in the right list."""
    await on.press("ctrl+o")
    assert on.app.screen.places.cursor_key.startswith("box:")
    await on.press("tab")
    assert on.app.screen.lying.cursor_key.startswith("lot:")


async def to_list(on: Any, name: str) -> None:
    await on.press("ctrl+o")
    on.app.screen.places.move_to(f"list:{name}")
    await on.settle()


@pytest.mark.parametrize("size", SIZES)
async def test_a_box_is_counted_as_one_change(boxed: Ledger, screens: Any, size: tuple[int, int]) -> None:
    before = len(boxed.journal())
    async with screens(boxed, size) as on:
        await on.press("ctrl+o c 3 down 3 8 enter")
    assert laid(boxed)["SHELF"] == [("TOE", 3)]
    assert boxed.snapshot().bought_entries[-1].amount == 38
    assert len(boxed.journal()) == before + 1


async def test_a_count_of_a_box_may_be_entered_late(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await on.press("ctrl+o c 3 down down minus 1 0 m enter")
    ten_minutes_ago = later(boxed.now(), -10)
    assert [(entry.pieces, entry.at) for entry in boxed.snapshot().lot_entries] == [(3, ten_minutes_ago)]
    assert boxed.snapshot().bought_entries[-1].at == ten_minutes_ago


async def test_a_box_is_emptied_into_another_one(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await on.press("ctrl+o e 1")
    assert laid(boxed)["CRATE"] == [("TOE", 4)]
    assert laid(boxed)["SHELF"] == []


async def test_a_box_stands_somewhere_else_with_all_in_it(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await on.press("ctrl+o s v a n enter")
    assert [box.place for box in boxed.snapshot().boxes] == ["van", ""]
    assert laid(boxed)["SHELF"] == [("TOE", 4)]


async def test_some_pieces_go_into_another_box(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await to_toes(on)
        await on.press("m C R A T E down 1 enter")
    assert laid(boxed)["CRATE"] == [("TOE", 1)]
    assert laid(boxed)["SHELF"] == [("TOE", 3)]


async def test_what_broke_stands_among_the_damaged_until_it_is_repaired(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await to_toes(on)
        await on.press("d t i p down d r o p p e d enter")
        assert [damage.place for damage in boxed.snapshot().damages] == ["tip"]
        await to_list(on, "damaged")
        assert "dropped" in on.text
        await on.press("tab r enter")
    assert boxed.snapshot().damages[0].repaired_at is not None


async def test_what_went_missing_is_found_again(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await to_toes(on)
        await on.press("x 1 enter")
        assert laid(boxed)["SHELF"] == [("TOE", 3)]
        await to_list(on, "missing")
        await on.press("tab f enter")
    assert sum(pieces for _, pieces in laid(boxed)["SHELF"]) == 4


async def test_what_is_lent_comes_back(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await to_toes(on)
        await on.press("l A n n down 2 enter")
        assert boxed.snapshot().lot_entries[-1].cause == "Ann"
        await to_list(on, "lent")
        assert "Ann" in on.text
        await on.press("tab b enter")
    assert sum(pieces for _, pieces in laid(boxed)["SHELF"]) == 4


async def test_pieces_are_scrapped(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await to_toes(on)
        await on.press("k b e n t enter")
    assert laid(boxed)["SHELF"] == []


async def test_marked_steps_of_a_helper_are_ticked_as_one_change(boxed: Ledger, screens: Any) -> None:
    before = len(boxed.journal())
    async with screens(boxed, (120, 40)) as on:
        await to_list(on, "helper")
        count = len(on.app.screen.lying.shown_keys)
        assert count
        await on.press("tab " + "space " * count + "t y")
    assert len(boxed.snapshot().steps_done) == count
    assert len(boxed.journal()) == before + 1


async def test_the_label_list_of_a_box_is_written_to_a_file(
    boxed: Ledger, screens: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    async with screens(boxed) as on:
        await on.press("ctrl+o p enter")
        await to_list(on, "helper")
        await on.press("p enter")
        await to_list(on, "damaged")
        await on.press("p enter")
    assert "| 4 | TOE" in (tmp_path / "box-shelf.md").read_text("utf-8")
    assert (tmp_path / "helper-list.md").read_text("utf-8").startswith("# For a helper")
    assert (tmp_path / "repair-kit.md").read_text("utf-8").startswith("# Repair kit")


async def test_a_note_is_written_on_the_box(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await on.press("ctrl+o n d a m p enter")
    assert (boxed.snapshot().notes[-1].noun, boxed.snapshot().notes[-1].text) == ("box", "damp")


async def test_without_a_box_it_is_said_where_one_is_added(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("escape")  # the six questions of an empty ledger
        await on.press("ctrl+o c")
        assert "No box stands under the cursor" in on.text
