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


async def test_a_box_is_moved_with_all_in_it_by_the_key_that_moves(boxed: Ledger, screens: Any) -> None:
    async with screens(boxed) as on:
        await on.press("ctrl+o m v a n enter")
    assert [box.place for box in boxed.snapshot().boxes] == ["van", ""]
    assert laid(boxed)["SHELF"] == [("TOE", 4)]


@pytest.fixture
def mixed(boxed: Ledger) -> Ledger:
    """SHELF holds two lots of toes, a spool and the screws."""
    boxed.record(CountPart(part="SHIN", side="L", pieces=2, box="SHELF"), later(boxed.now(), -110))
    boxed.record(Change("spool", "A2", {"box": "SHELF"}))
    return boxed


async def test_all_that_are_marked_go_into_another_box_as_one_change(mixed: Ledger, screens: Any) -> None:
    before = len(mixed.journal())
    async with screens(mixed) as on:
        await to_toes(on)
        await on.press("space space space space m C R A T E down minus 5 m enter")
        assert on.app.screen.lying.marked == ()
        five_minutes_ago = later(mixed.now(), -5)
        assert {entry.at for entry in mixed.snapshot().lot_entries} == {five_minutes_ago}
        assert laid(mixed)["CRATE"] == [("TOE", 4), ("SHIN", 2)], on.text
        crate = next(box.id for box in mixed.snapshot().boxes if box.code == "CRATE")
        assert [spool.code for spool in mixed.snapshot().spools if spool.box_id == crate] == ["A2"]
        assert [item.code for item in mixed.snapshot().bought_items if item.box_id == crate] == ["SCREW"]
        assert len(mixed.journal()) == before + 1
        await on.press("u y")
    assert laid(mixed)["SHELF"] == [("TOE", 4), ("SHIN", 2)]


@pytest.mark.parametrize(
    ("keys", "counts"),
    [("x enter", "missing"), ("l A n n enter", "lent"), ("d t i p enter", "damaged")],
)
async def test_what_happened_to_all_that_are_marked_is_told_at_once(
    mixed: Ledger, screens: Any, keys: str, counts: str
) -> None:
    before = len(mixed.journal())
    async with screens(mixed) as on:
        await to_toes(on)
        await on.press(f"space space {keys}")
    now = lay_boxes(take_stock(mixed.snapshot(), mixed.now()))
    lots = [away.lot for away in (*now.missing, *now.lent)] or [lot for lot, _ in now.damaged]
    assert {mixed.snapshot().part[lot.part_id].code for lot in lots} == {"TOE", "SHIN"}
    assert len(getattr(now, counts)) == 2
    assert len(mixed.journal()) == before + 1


async def test_a_spool_is_neither_lent_nor_scrapped_and_it_is_said_what_can_be_done(
    mixed: Ledger, screens: Any
) -> None:
    before = len(mixed.journal())
    async with screens(mixed) as on:
        await to_toes(on)
        on.app.screen.lying.move_to(f"spool:{next(s.id for s in mixed.snapshot().spools if s.code == 'A2')}")
        await on.press("k")
        assert "m puts spools and bought items into another box" in on.text
    assert len(mixed.journal()) == before


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
