"""Leaf blockers of pieces, each once per position and cause, and their closure."""

from typing import Any

import pytest

from buildlog.facts.stock import SpoolEntry
from buildlog.status.blocker import Blocker, BlockerKind
from buildlog.status.blockers import Link
from buildlog.terms import (
    JobState,
    LotEntryKind,
    Moment,
    OldGoodFor,
    Origin,
    Side,
    SpoolEntryKind,
    Stage,
    StepKind,
)


@pytest.fixture
def root(shop: Any) -> Any:
    return shop.assembly("ROOT", shop.build())


@pytest.fixture
def printable(shop: Any, root: Any) -> Any:
    """A part of 100 g with a ready file, an idle printer and a full dry spool."""
    shop.printer()
    material = shop.material()
    shop.spool(material)
    part = shop.part("FOOT")
    shop.demand(part, material, 100_000)
    shop.asks_for(shop.ready_file(part), material, 100_000)
    shop.use(part, root, 2)
    return part


def leaves(shop: Any) -> tuple[Blocker, ...]:
    found = shop.status().blockers.leaves
    return tuple(leaf for several in found.values() for leaf in several)


def kinds(shop: Any) -> list[BlockerKind]:
    return sorted(leaf.kind for leaf in leaves(shop))


def test_all_slots_of_one_cause_are_one_blocker(shop: Any, printable: Any) -> None:
    (leaf,) = leaves(shop)
    assert (leaf.kind, leaf.pieces, leaf.about.id) == (BlockerKind.NOT_PRINTED, 2, printable.id)
    assert leaf.bench_minutes is not None


def test_it_vanishes_when_the_pieces_lie_there(shop: Any, printable: Any) -> None:
    shop.lot(printable, 1)
    assert [leaf.pieces for leaf in leaves(shop)] == [1]
    shop.lot(printable, 1)
    assert leaves(shop) == ()


def test_a_running_print_says_until_when(shop: Any, printable: Any) -> None:
    shop.prints(printable, 2, state=JobState.RUNNING)
    (leaf,) = leaves(shop)
    assert leaf.kind is BlockerKind.UNDER_WAY
    assert leaf.until is not None
    assert leaf.bench_minutes is None


def test_a_queued_print_is_under_way_and_can_be_started_while_a_printer_is_free(shop: Any, printable: Any) -> None:
    shop.prints(printable, 2)
    (leaf,) = leaves(shop)
    assert (leaf.kind, leaf.pieces, leaf.until) == (BlockerKind.UNDER_WAY, 2, None)
    assert leaf.bench_minutes is not None
    shop.prints(shop.part("OTHER"), state=JobState.RUNNING)
    assert [leaf.bench_minutes for leaf in leaves(shop)] == [None]


def test_nobody_can_start_a_print_while_every_printer_is_taken(shop: Any, printable: Any) -> None:
    shop.prints(shop.part("OTHER"), state=JobState.RUNNING)
    (leaf,) = leaves(shop)
    assert (leaf.kind, leaf.bench_minutes) == (BlockerKind.NOT_PRINTED, None)


def test_a_revision_without_a_ready_file_needs_preparing(shop: Any, printable: Any) -> None:
    shop.revise(printable, "B", Moment("2026-11-08T08:00:00Z"), OldGoodFor.NO_GOOD)
    assert BlockerKind.NEEDS_PREPARING in kinds(shop)


def test_an_idea_is_not_drawn_yet(shop: Any, root: Any) -> None:
    shop.use(shop.part("FOOT", stage=Stage.IDEA), root)
    assert kinds(shop) == [BlockerKind.NOT_DRAWN]


def test_a_part_without_figures_says_so(shop: Any, root: Any) -> None:
    part = shop.part("FOOT", revised=False)
    shop.change("revisions", shop.revise(part, "A", Moment("2026-11-01T08:00:00Z")), print_minutes=None)
    shop.use(part, root)
    assert BlockerKind.NO_FIGURES in kinds(shop)


def test_what_is_made_by_hand_takes_its_minutes(shop: Any, root: Any) -> None:
    part = shop.part("BOW", origin=Origin.MADE, revised=False)
    shop.change("revisions", shop.revise(part, "A", Moment("2026-11-01T08:00:00Z")), hand_minutes=45)
    shop.use(part, root, 2)
    (leaf,) = leaves(shop)
    assert (leaf.kind, leaf.bench_minutes) == (BlockerKind.MAKE_BY_HAND, 90)


def test_bought_short_and_on_order(shop: Any, root: Any) -> None:
    item = shop.bought(amount=1)
    part = shop.part("HINGE", origin=Origin.BOUGHT, bought_item_id=item.id, revised=False)
    shop.use(part, root, 3)
    assert [(leaf.kind, leaf.pieces) for leaf in leaves(shop)] == [(BlockerKind.BOUGHT_SHORT, 2)]
    due = Moment("2026-11-28T08:00:00Z")
    shop.order(item, 2, due)
    assert [(leaf.kind, leaf.until) for leaf in leaves(shop)] == [(BlockerKind.ON_ORDER, due)]


def test_no_material_blocks_from_the_first_slot_that_it_does_not_reach(shop: Any, printable: Any) -> None:
    shop.change("spools", shop.rows["spools"][0], content_mg=150_000)
    short = [leaf for leaf in leaves(shop) if leaf.kind is BlockerKind.NO_MATERIAL]
    assert [(leaf.about.name, leaf.pieces) for leaf in short] == [("PLA-RED", 1)]


def test_a_printer_that_is_down_and_none_that_can(shop: Any, printable: Any) -> None:
    up_again = Moment("2026-11-27T08:00:00Z")
    shop.down(shop.rows["printers"][0], up_again)
    down = [leaf for leaf in leaves(shop) if leaf.kind is BlockerKind.PRINTER_DOWN]
    assert [leaf.until for leaf in down] == [up_again]
    shop.change("printers", shop.rows["printers"][0], printer_class="small")
    assert BlockerKind.NO_PRINTER in kinds(shop)


def test_what_holds_several_parts_alike_is_one_blocker_of_all_their_pieces(
    shop: Any, root: Any, printable: Any
) -> None:
    other = shop.part("HAND")
    shop.demand(other, shop.rows["materials"][0], 100_000)
    shop.ready_file(other)
    shop.use(other, root, 3)
    shop.down(shop.rows["printers"][0], Moment("2026-11-27T08:00:00Z"))
    assert [leaf.pieces for leaf in leaves(shop) if leaf.kind is BlockerKind.PRINTER_DOWN] == [2 + 3]


def test_no_one_spool_blocks_only_where_the_print_must_come_from_one(shop: Any, printable: Any) -> None:
    spool = shop.change("spools", shop.rows["spools"][0], content_mg=110_000)
    for _ in range(4):
        shop.spool(shop.rows["materials"][0], 110_000)
    assert BlockerKind.NO_ONE_SPOOL not in kinds(shop)
    shop.change("printers", shop.rows["printers"][0], stops_at_filament_end=False)
    assert BlockerKind.NO_ONE_SPOOL in kinds(shop)
    shop.change("spools", spool, content_mg=900_000)
    assert BlockerKind.NO_ONE_SPOOL not in kinds(shop)


def test_no_one_spool_blocks_a_part_that_is_shown_from_one_lot(shop: Any, printable: Any) -> None:
    shop.change("spools", shop.rows["spools"][0], content_mg=110_000)
    for _ in range(4):
        shop.spool(shop.rows["materials"][0], 110_000)
    assert BlockerKind.NO_ONE_SPOOL not in kinds(shop)
    shop.change("parts", printable, one_lot=True)
    (leaf,) = (leaf for leaf in leaves(shop) if leaf.kind is BlockerKind.NO_ONE_SPOOL)
    assert (leaf.pieces, leaf.about.id) == (2, printable.id)


def test_a_wet_spool_is_dried_before_it_prints(shop: Any, printable: Any) -> None:
    spool = shop.rows["spools"][0]
    shop.change("materials", shop.rows["materials"][0], open_minutes=60)
    opened = {"spool_id": spool.id, "kind": SpoolEntryKind.OPENED}
    shop.row("spool_entries", SpoolEntry, at=Moment("2026-11-24T08:00:00Z"), **opened)
    (wet,) = (leaf for leaf in leaves(shop) if leaf.kind is BlockerKind.SPOOL_WET)
    assert (wet.pieces, wet.text) == (2, f"dry {spool.code} first")
    assert wet.bench_minutes is not None
    assert next(leaf for leaf in leaves(shop) if leaf.kind is BlockerKind.NOT_PRINTED).bench_minutes is None
    shop.row("spool_entries", SpoolEntry, at=Moment("2026-11-25T11:30:00Z"), spool_id=spool.id,
             kind=SpoolEntryKind.DRIED)  # fmt: skip
    assert BlockerKind.SPOOL_WET not in kinds(shop)


def test_a_missing_piece_is_worth_a_look_at_the_first_slot_that_lacks_it(shop: Any, printable: Any) -> None:
    shop.happens(shop.lot(printable), LotEntryKind.MISSING)
    missing = [leaf for leaf in leaves(shop) if leaf.kind is BlockerKind.MISSING]
    assert [leaf.pieces for leaf in missing] == [1]


def test_a_broken_piece_on_the_shelf_can_be_repaired(shop: Any, printable: Any) -> None:
    shop.breaks(shop.lot(printable))
    assert BlockerKind.DAMAGED in kinds(shop)


def test_a_question_holds_every_position_that_takes_its_part(shop: Any, root: Any, printable: Any) -> None:
    shop.lot(printable, 2)
    question = shop.ask(shop.rows["builds"][0], printable)
    assert kinds(shop) == [BlockerKind.QUESTION]
    shop.change("questions", question, answered_at=Moment("2026-11-25T11:00:00Z"))
    assert kinds(shop) == []


def test_a_question_of_one_side_holds_that_side_only(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    shop.ask(shop.rows["builds"][0], legs, Side.RIGHT)
    assert set(shop.status().blockers.leaves) == {shop.position(legs, Side.RIGHT).id}


def test_the_closure_gives_each_leaf_once_with_the_way_to_it(shop: Any, root: Any) -> None:
    arm, hand, rail = shop.assembly("ARM", root), shop.assembly("HAND", root), shop.assembly("RAIL", root)
    shop.wait(arm, rail)
    shop.wait(hand, rail)
    shop.step(rail, StepKind.SAND, name="smooth")
    blockers = shop.status().blockers
    rail_id = shop.position(rail).id
    assert [(leaf.text, path) for leaf, path in blockers.closure(shop.position(arm).id)] == [
        ("smooth", (Link(rail_id, True),))
    ]
    assert [(leaf.text, path) for leaf, path in blockers.closure(shop.position(root).id)] == [
        ("smooth", (Link(rail_id, False),))
    ]
    assert blockers.beneath[shop.position(root).id] == 1


def test_hours_beneath_count_each_slot_once(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    shop.use(shop.part("FOOT"), legs, 2)
    status = shop.status()
    each = status.hours.pieces[1, Side.NONE].expected_minutes
    assert status.blockers.minutes_beneath[shop.position(root).id] == pytest.approx(4 * each)


def test_what_is_to_print_is_the_same_wherever_it_is_summed(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True, count=7)
    shop.use(shop.part("FOOT"), legs, 3)
    shop.use(shop.part("TOE"), legs, 1)
    status = shop.status()
    positions = [position.id for position in shop.positions(legs)]
    leaves = sum(leaf.print_minutes for p in positions for leaf in status.blockers.leaves[p])
    beneath = status.blockers.minutes_beneath[shop.position(root).id]
    assert {round(leaves), round(beneath)} == {status.hours.total_minutes}
