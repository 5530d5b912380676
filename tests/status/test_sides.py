"""Whether left and right are in step."""

from typing import Any

import pytest

from buildlog.status.blocker import BlockerKind
from buildlog.terms import Moment, OldGoodFor, Side, SideRule

L, R = Side.LEFT, Side.RIGHT


@pytest.fixture
def legs(shop: Any) -> Any:
    return shop.assembly("LEG", shop.assembly("ROOT", shop.build()), paired=True)


@pytest.fixture
def two_revisions(shop: Any) -> Any:
    """A handed part whose old pieces are still good; returns (part, id of B)."""
    part = shop.part("SHELL", handed=True)
    return part, shop.revise(part, "B", Moment("2026-11-02T08:00:00Z"), OldGoodFor.STILL_GOOD).id


def test_sides_filled_with_different_revisions_block_the_position_above_both(
    shop: Any, legs: Any, two_revisions: Any
) -> None:
    part, newer = two_revisions
    usage = shop.use(part, legs)
    shop.fit(shop.lot(part, side=L), shop.position(legs, L), usage)
    old = shop.fit(shop.lot(part, side=R, revision_id=newer), shop.position(legs, R), usage)
    status = shop.status()
    (pair,) = status.sides.pairs
    assert pair.differences == ("SHELL 1: left A, right B",)
    assert {position: [leaf.kind for leaf in found] for position, found in status.blockers.leaves.items()} == {
        pair.above_position_id: [BlockerKind.OUT_OF_STEP]
    }
    shop.take_out(old, Moment("2026-11-20T08:00:00Z"))
    shop.fit(shop.lot(part, side=R), shop.position(legs, R), usage, from_at=Moment("2026-11-20T08:00:00Z"))
    assert shop.status().sides.pairs[0].in_step


def test_sides_filled_with_different_parts_or_scales_are_out_of_step(shop: Any, legs: Any) -> None:
    """The left one was superseded and left as it is in its bonded leg."""
    first, later = shop.part("HORN"), shop.part("HORN-2", scale_percent=90.0)
    before, usage = shop.use(first, legs), shop.use(later, legs)
    shop.change("usages", before, ended_at=Moment("2026-11-09T08:00:00Z"))
    shop.fit(shop.lot(first), shop.position(legs, L), usage, left_as_is=True)
    assert shop.status().sides.pairs[0].in_step
    shop.fit(shop.lot(later), shop.position(legs, R), usage)
    status = shop.status()
    assert status.sides.pairs[0].differences == ("HORN-2 1: left HORN A, right A",)
    assert [leaf.kind for leaf in status.blockers.leaves[status.sides.pairs[0].above_position_id]] == [
        BlockerKind.OUT_OF_STEP
    ]


def test_a_side_that_is_not_filled_is_not_out_of_step(shop: Any, legs: Any, two_revisions: Any) -> None:
    part, _ = two_revisions
    usage = shop.use(part, legs)
    shop.fit(shop.lot(part, side=L), shop.position(legs, L), usage)
    assert shop.status().sides.pairs[0].in_step


def test_what_lies_below_a_pair_is_compared_too(shop: Any, legs: Any, two_revisions: Any) -> None:
    part, newer = two_revisions
    toes = shop.assembly("TOE", legs, count=2)
    usage = shop.use(part, toes)
    shop.fit(shop.lot(part, side=L), shop.positions(toes, L)[1], usage)
    shop.fit(shop.lot(part, side=R, revision_id=newer), shop.positions(toes, R)[1], usage)
    (pair,) = shop.status().sides.pairs
    assert (pair.left_position_id, pair.in_step) == (shop.position(legs, L).id, False)


def test_handed_parts_of_a_position_without_a_side_are_a_pair(shop: Any, two_revisions: Any) -> None:
    part, newer = two_revisions
    root = shop.assembly("ROOT", shop.build())
    usage = shop.use(part, root, side_rule=SideRule.ONE_OF_EACH)
    position = shop.position(root)
    shop.fit(shop.lot(part, side=L), position, usage, 1)
    shop.fit(shop.lot(part, side=R, revision_id=newer), position, usage, 2)
    (pair,) = shop.status().sides.pairs
    assert (pair.above_position_id, pair.in_step) == (position.id, False)


def test_a_held_side_is_never_out_of_step(shop: Any, legs: Any, two_revisions: Any) -> None:
    part, newer = two_revisions
    usage = shop.use(part, legs)
    test = shop.fit_test(legs, usage)
    shop.change("assemblies", legs, lead_side=L, lead_test_id=test.id)
    shop.fit(shop.lot(part, side=L), shop.position(legs, L), usage)
    shop.fit(shop.lot(part, side=R, revision_id=newer), shop.position(legs, R), usage)
    (pair,) = shop.status().sides.pairs
    assert (pair.held_side, pair.in_step) == (R, True)
    assert shop.status().blockers.leaves.keys().isdisjoint({pair.above_position_id})


def test_a_handed_part_is_in_step_when_as_many_are_there_of_both(shop: Any, legs: Any) -> None:
    part = shop.part("SHELL", handed=True)
    shop.use(part, legs)
    shop.lot(part, side=L)
    assert [(p.left_usable, p.right_usable, p.in_step) for p in shop.status().sides.parts] == [(1, 0, False)]
