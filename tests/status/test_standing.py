"""What stands in a slot: right, standing in, broken, left as it is."""

from typing import Any

import pytest

from buildlog.status.blocker import BlockerKind
from buildlog.status.slot import Holds, Slot
from buildlog.terms import Moment, OldGoodFor, Side

REVISED = Moment("2026-11-05T08:00:00Z")


@pytest.fixture
def slot(shop: Any) -> Any:
    """One slot for FOOT; returns (position, usage, part)."""
    root = shop.assembly("ROOT", shop.build())
    part = shop.part("FOOT")
    return shop.position(root), shop.use(part, root), part


def only(shop: Any) -> Slot:
    (found,) = shop.status().needs.slots
    return found


def kinds(shop: Any) -> set[BlockerKind]:
    return {leaf.kind for leaves in shop.status().blockers.leaves.values() for leaf in leaves}


def test_a_right_piece_fills_its_slot(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    lot = shop.lot(part)
    shop.fit(lot, position, usage)
    assert (only(shop).holds, only(shop).piece, only(shop).stood_in) == (Holds.FILLED, lot.id, None)
    assert shop.status().blockers.is_ready(position.id)


def test_another_part_stands_in(shop: Any, slot: Any) -> None:
    position, usage, _ = slot
    fitting = shop.fit(shop.lot(shop.part("OTHER")), position, usage)
    assert (only(shop).holds, only(shop).stood_in) == (Holds.TO_GET, fitting.id)
    assert BlockerKind.STAND_IN in kinds(shop)


def test_a_marked_stand_in_of_the_right_part_does_not_fill(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    shop.fit(shop.lot(part), position, usage, stand_in=True)
    assert only(shop).stood_in is not None


def test_a_slot_stood_in_still_takes_a_free_piece(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    shop.fit(None, position, usage, what="cardboard", stand_in=True)
    lot = shop.lot(part)
    assert (only(shop).holds, only(shop).piece) == (Holds.ALLOTTED, lot.id)
    assert kinds(shop) == {BlockerKind.STAND_IN}


@pytest.mark.parametrize(
    ("answer", "kind"),
    [(OldGoodFor.STAND_INS, BlockerKind.STAND_IN), (OldGoodFor.NO_GOOD, BlockerKind.TAKE_OUT)],
)
def test_a_revision_that_no_longer_counts_stands_in(shop: Any, slot: Any, answer: Any, kind: BlockerKind) -> None:
    position, usage, part = slot
    shop.fit(shop.lot(part), position, usage)
    shop.revise(part, "B", REVISED, answer)
    assert only(shop).stood_in is not None
    assert kind in kinds(shop)


def test_the_mark_of_a_piece_is_not_taken_for_the_letter_of_its_revision(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    lot = shop.lot(part)
    shop.change("lots", lot, mark="RIM-B")
    shop.fit(lot, position, usage)
    shop.revise(part, "B", REVISED, OldGoodFor.STAND_INS)
    leaves = [leaf for each in shop.status().blockers.leaves.values() for leaf in each]
    told = [leaf.text for leaf in leaves if leaf.kind is BlockerKind.STAND_IN]
    assert told == [f"piece RIM-B (revision A) stands in for {part.code} (revision B)"]


def test_an_old_revision_left_as_it_is_fills(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    shop.fit(shop.lot(part), position, usage, left_as_is=True)
    shop.revise(part, "B", REVISED, OldGoodFor.NO_GOOD)
    assert only(shop).holds is Holds.FILLED
    assert shop.status().blockers.is_ready(position.id)


def test_pieces_fitted_before_the_position_was_remade_no_longer_count(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    shop.fit(shop.lot(part), position, usage)
    shop.change("positions", position, remade_at=REVISED)
    assert only(shop).stood_in is not None


def test_a_fitted_piece_out_of_use_is_damaged_until_it_is_repaired(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    lot = shop.lot(part)
    shop.fit(lot, position, usage)
    damage = shop.breaks(lot)
    assert BlockerKind.DAMAGED in kinds(shop)
    shop.change("damages", damage, repaired_at=damage.at)
    assert shop.status().blockers.is_ready(position.id)


def test_a_piece_of_the_wrong_side_is_wrong_as_it_is(shop: Any) -> None:
    root = shop.assembly("ROOT", shop.build())
    legs = shop.assembly("LEG", root, paired=True)
    part = shop.part("SHELL", handed=True)
    usage = shop.use(part, legs)
    shop.fit(shop.lot(part, side=Side.RIGHT), shop.position(legs, Side.LEFT), usage)
    assert BlockerKind.CONFLICT in kinds(shop)


def test_what_stands_in_a_slot_that_is_no_more_is_to_take_out(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    fitting = shop.fit(shop.lot(part), position, usage)
    shop.change("usages", usage, ended_at=REVISED)
    assert shop.status().needs.take_out == (fitting.id,)
    assert kinds(shop) == {BlockerKind.TAKE_OUT}
    shop.take_out(fitting, Moment("2026-11-06T08:00:00Z"))
    assert kinds(shop) == set()


def test_what_was_taken_out_leaves_the_slot_empty_and_the_piece_free(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    shop.take_out(shop.fit(shop.lot(part), position, usage), Moment("2026-11-06T08:00:00Z"))
    assert (only(shop).holds, only(shop).fitting) == (Holds.ALLOTTED, None)
