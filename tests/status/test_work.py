"""Which steps are done, which one is next, what cures, and work on pieces."""

from typing import Any

import pytest

from buildlog.facts.printing import Resource
from buildlog.status.blocker import BlockerKind
from buildlog.status.slot import Holds
from buildlog.terms import FitKind, LotEntryKind, Moment, ResourceKind, Side, StepKind

THEN = Moment("2026-11-25T11:00:00Z")  # an hour ago
CURED = Moment("2026-11-25T13:00:00Z")
LONG_AGO = Moment("2026-11-02T08:00:00Z")


@pytest.fixture
def root(shop: Any) -> Any:
    return shop.assembly("ROOT", shop.build())


def leaves(shop: Any) -> list[tuple[BlockerKind, str]]:
    found = shop.status().blockers.leaves
    return [(leaf.kind, leaf.about.name) for several in found.values() for leaf in several]


def test_the_first_step_not_done_is_open_and_no_later_one(shop: Any, root: Any) -> None:
    first, second = (shop.step(root, StepKind.SAND, name=name) for name in ("rough", "fine"))
    assert leaves(shop) == [(BlockerKind.STEP_OPEN, "rough")]
    shop.tick(first, shop.position(root))
    assert leaves(shop) == [(BlockerKind.STEP_OPEN, "fine")]
    shop.tick(second, shop.position(root))
    assert leaves(shop) == []


def test_a_reopened_tick_no_longer_counts(shop: Any, root: Any) -> None:
    step = shop.step(root, StepKind.SAND)
    shop.tick(step, shop.position(root), at=LONG_AGO, reopened_at=THEN)
    assert leaves(shop) == [(BlockerKind.STEP_OPEN, step.name)]


def test_steps_ticked_before_a_remake_no_longer_count(shop: Any, root: Any) -> None:
    step = shop.step(root, StepKind.SAND)
    shop.tick(step, shop.position(root), at=LONG_AGO)
    shop.change("positions", shop.position(root), remade_at=THEN)
    assert leaves(shop) == [(BlockerKind.STEP_OPEN, step.name)]


def test_the_next_step_waits_until_the_one_before_may_be_handled(shop: Any, root: Any) -> None:
    first = shop.step(root, StepKind.BOND, handle_after_minutes=120)
    shop.step(root, StepKind.PAINT)
    shop.tick(first, shop.position(root), at=THEN)
    (leaf,) = shop.status().blockers.leaves[shop.position(root).id]
    assert (leaf.kind, leaf.until) == (BlockerKind.CURING, CURED)
    assert [leaf.kind for leaf in shop.status(CURED).blockers.leaves[1]] == [BlockerKind.STEP_OPEN]


def test_load_after_holds_a_load_test_and_nothing_else(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    usage = shop.use(part, root)
    shop.fit(shop.lot(part), shop.position(root), usage)
    shop.tick(shop.step(root, StepKind.BOND, load_after_minutes=120), shop.position(root), at=THEN)
    assert shop.status().blockers.is_ready(shop.position(root).id)
    shop.fit_test(root, usage, kind=FitKind.LOAD)
    (leaf,) = shop.status().blockers.leaves[shop.position(root).id]
    assert (leaf.kind, leaf.until) == (BlockerKind.CURING, CURED)


def test_a_jig_that_cures_elsewhere_is_taken(shop: Any, root: Any) -> None:
    shop.row("resources", Resource, code="JIG", kind=ResourceKind.JIG, count=1)
    legs = shop.assembly("LEG", root, paired=True)
    step = shop.step(legs, StepKind.BOND, handle_after_minutes=120, jig_id=1)
    shop.tick(step, shop.position(legs, Side.LEFT), at=THEN)
    (leaf,) = shop.status().blockers.leaves[shop.position(legs, Side.RIGHT).id]
    assert (leaf.kind, leaf.until) == (BlockerKind.JIG_TAKEN, CURED)


def test_the_first_joint_needs_its_slots_held_and_its_sub_positions_ready(shop: Any, root: Any) -> None:
    part, sub = shop.part("FOOT"), shop.assembly("SUB", root)
    shop.use(part, root)
    sanding = shop.step(sub, StepKind.SAND)
    joint = shop.step(root, StepKind.ASSEMBLE, name="joint")
    assert (BlockerKind.STEP_OPEN, "joint") not in leaves(shop)
    shop.lot(part)
    assert (BlockerKind.STEP_OPEN, "joint") not in leaves(shop)
    shop.tick(sanding, shop.position(sub))
    assert leaves(shop) == [(BlockerKind.STEP_OPEN, joint.name)]


def test_a_step_before_the_first_joint_needs_no_pieces(shop: Any, root: Any) -> None:
    shop.use(shop.part("FOOT"), root)
    shop.step(root, StepKind.SAND, name="bench")
    assert (BlockerKind.STEP_OPEN, "bench") in leaves(shop)


def test_pieces_left_over_when_all_steps_are_done_are_to_put_in_place(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    shop.lot(part)
    shop.tick(shop.step(root), shop.position(root))
    assert leaves(shop) == [(BlockerKind.STEP_OPEN, "FOOT")]


def test_rework_called_for_in_one_position_is_owed_there_only(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    step = shop.step(legs, StepKind.REWORK)
    shop.tick(step, shop.position(legs, Side.LEFT), at=THEN, reopened_at=THEN)
    found = shop.status().blockers.leaves
    assert set(found) == {shop.position(legs, Side.LEFT).id}


def test_steps_on_a_part_are_counted_per_lot(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root, 3)
    lot = shop.lot(part, 3)
    step = shop.step(part, StepKind.SAND, bench_minutes=4)
    shop.tick(step, lot, pieces=2)
    slots = shop.status().needs.slots
    assert [slot.holds for slot in slots] == [Holds.ALLOTTED] * 3
    assert [slot.open_steps for slot in slots] == [False, False, True]
    (leaf,) = shop.status().blockers.leaves[shop.position(root).id]
    assert (leaf.kind, leaf.pieces, leaf.bench_minutes) == (BlockerKind.STEP_OPEN, 1, 4)


def test_a_piece_split_off_takes_its_work_along(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    usage = shop.use(part, root)
    lot = shop.lot(part, 3, made_at=LONG_AGO)
    shop.tick(shop.step(part, StepKind.SAND), lot, pieces=1, at=Moment("2026-11-03T08:00:00Z"))
    shop.happens(lot, LotEntryKind.SPLIT_OFF, at=Moment("2026-11-04T08:00:00Z"))
    piece = shop.lot(part, parent_id=lot.id, made_at=Moment("2026-11-04T08:00:00Z"))
    shop.fit(piece, shop.position(root), usage, from_at=Moment("2026-11-04T08:00:00Z"))
    status = shop.status()
    assert status.work.pieces.finished(piece) == 1
    assert status.work.pieces.finished(lot) == 0
    assert status.blockers.is_ready(shop.position(root).id)


def test_a_wait_holds_a_step_until_the_other_assembly_is_ready_on_the_same_side(shop: Any, root: Any) -> None:
    legs, rails = (shop.assembly(code, root, paired=True) for code in ("LEG", "RAIL"))
    sanding, painting = shop.step(rails, StepKind.SAND), shop.step(legs, StepKind.PAINT)
    shop.wait(legs, rails, step=painting)
    shop.tick(sanding, shop.position(rails, Side.LEFT))
    found = shop.status().blockers
    left, right = (shop.position(legs, side).id for side in (Side.LEFT, Side.RIGHT))
    assert [leaf.kind for leaf in found.leaves[left]] == [BlockerKind.STEP_OPEN]
    assert [leaf.kind for leaf in found.leaves[right]] == [BlockerKind.WAIT]
    assert found.waits_for[right] == (shop.position(rails, Side.RIGHT).id,)


def test_a_wait_of_a_step_holds_no_more_once_the_step_was_done_all_the_same(shop: Any, root: Any) -> None:
    arm, hand = shop.assembly("ARM", root), shop.assembly("HAND", root)
    shop.step(hand, StepKind.SAND)
    painting = shop.step(arm, StepKind.PAINT)
    shop.wait(arm, hand, step=painting)
    place = shop.position(arm)
    assert [leaf.kind for leaf in shop.status().blockers.leaves[place.id]] == [BlockerKind.WAIT]
    done = shop.tick(painting, place, overruled=True)
    found = shop.status().blockers
    assert found.is_ready(place.id)
    assert place.id not in found.waits_for
    shop.change("steps_done", done, reopened_at=THEN)
    assert [leaf.kind for leaf in shop.status().blockers.leaves[place.id]] == [BlockerKind.WAIT]


def test_a_wait_between_twins_of_one_position_looks_at_the_same_ordinal(shop: Any, root: Any) -> None:
    arms, hands = (shop.assembly(code, root, count=2) for code in ("ARM", "HAND"))
    shop.wait(arms, hands)
    shop.tick(shop.step(hands, StepKind.SAND), shop.positions(hands)[0])
    found = shop.status().blockers
    first, second = (position.id for position in shop.positions(arms))
    assert found.is_ready(first)
    assert found.waits_for == {second: (shop.positions(hands)[1].id,)}


def test_a_wait_for_a_step_is_met_by_its_tick(shop: Any, root: Any) -> None:
    arm, hand = shop.assembly("ARM", root), shop.assembly("HAND", root)
    first = shop.step(hand, StepKind.SAND)
    shop.step(hand, StepKind.PAINT)
    shop.wait(arm, hand, on_step=first)
    assert not shop.status().blockers.is_ready(shop.position(arm).id)
    shop.tick(first, shop.position(hand))
    assert shop.status().blockers.is_ready(shop.position(arm).id)
