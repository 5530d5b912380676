"""Fits: due, passed, failed, stale by their own rule, spot checks, lead sides."""

from typing import Any

import pytest

from buildlog.status.blocker import BlockerKind
from buildlog.status.fits import FitState, Verdict
from buildlog.terms import FitOutcome, FitRule, Moment, OldGoodFor, Side, StepKind, WhatThen

AFTER = Moment("2026-11-12T08:00:00Z")  # the results are of the 10th


@pytest.fixture
def slot(shop: Any) -> Any:
    """One slot for FOOT; returns (position, usage, part)."""
    root = shop.assembly("ROOT", shop.build())
    part = shop.part("FOOT")
    return shop.position(root), shop.use(part, root), part


def only(shop: Any) -> FitState:
    (state,) = shop.status().fits.all
    return state


def kinds(shop: Any, position: Any) -> list[BlockerKind]:
    return [leaf.kind for leaf in shop.status().blockers.leaves.get(position.id, ())]


def passed_on(shop: Any, slot: Any, rule: FitRule = FitRule.NEW_REVISION, **result: Any) -> Any:
    """A fitted piece with a test that passed on it; returns its fitting."""
    position, usage, part = slot
    fitting = shop.fit(shop.lot(part), position, usage)
    test = shop.fit_test(shop.rows["assemblies"][0], usage, rule=rule)
    shop.result(test, position, fitting, **result)
    return fitting


def test_a_fit_is_due_when_its_slots_hold_something(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    shop.step(shop.rows["assemblies"][0])
    shop.fit_test(shop.rows["assemblies"][0], usage)
    assert only(shop).verdict is Verdict.NOT_YET
    shop.fit(shop.lot(part), position, usage)
    assert only(shop).verdict is Verdict.DUE
    assert BlockerKind.FIT_DUE in kinds(shop, position)


def test_a_piece_that_fills_by_lying_there_makes_its_fit_due(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    shop.fit_test(shop.rows["assemblies"][0], usage)
    shop.lot(part)
    assert kinds(shop, position) == [BlockerKind.FIT_DUE]


def test_a_test_looks_at_slots_below_its_assembly(shop: Any) -> None:
    root = shop.assembly("ROOT", shop.build())
    legs = shop.assembly("LEG", root, paired=True)
    part = shop.part("FOOT")
    usage = shop.use(part, legs)
    shop.fit_test(root, usage)
    shop.fit(shop.lot(part), shop.position(legs, Side.LEFT), usage)
    assert only(shop).verdict is Verdict.NOT_YET
    shop.fit(shop.lot(part), shop.position(legs, Side.RIGHT), usage)
    assert only(shop).verdict is Verdict.DUE


def test_a_passed_fit_blocks_nothing(shop: Any, slot: Any) -> None:
    passed_on(shop, slot)
    assert only(shop).verdict is Verdict.PASSED
    assert kinds(shop, slot[0]) == []


def test_a_new_revision_makes_it_stale(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    shop.take_out(passed_on(shop, slot), AFTER)
    revision = shop.revise(part, "B", Moment("2026-11-11T08:00:00Z"), OldGoodFor.STILL_GOOD)
    shop.fit(shop.lot(part, revision_id=revision.id), position, usage, from_at=AFTER)
    assert only(shop).verdict is Verdict.STALE
    assert kinds(shop, position) == [BlockerKind.FIT_STALE]


def test_a_piece_where_the_test_found_none_makes_it_stale(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    beside = shop.use(shop.part("TIP"), shop.rows["assemblies"][0])
    shop.result(shop.fit_test(shop.rows["assemblies"][0], usage, beside), position,
                shop.fit(shop.lot(part), position, usage))  # fmt: skip
    assert only(shop).verdict is Verdict.PASSED
    shop.fit(shop.lot(shop.rows["parts"][-1]), position, beside, from_at=AFTER)
    assert only(shop).verdict is Verdict.STALE


@pytest.mark.parametrize(
    ("rule", "verdict"),
    [
        (FitRule.NEW_REVISION, Verdict.SPOT_CHECK),
        (FitRule.REWORK, Verdict.SPOT_CHECK),
        (FitRule.ANY_NEW_PIECE, Verdict.STALE),
    ],
)
def test_a_reprint_of_the_same_revision(shop: Any, slot: Any, rule: FitRule, verdict: Verdict) -> None:
    position, usage, part = slot
    shop.take_out(passed_on(shop, slot, rule), AFTER)
    shop.fit(shop.lot(part), position, usage, from_at=AFTER)
    assert only(shop).verdict is verdict


@pytest.mark.parametrize(
    ("rule", "verdict"), [(FitRule.NEW_REVISION, Verdict.PASSED), (FitRule.REWORK, Verdict.STALE)]
)
def test_rework_makes_stale_only_by_its_own_rule(shop: Any, slot: Any, rule: FitRule, verdict: Verdict) -> None:
    passed_on(shop, slot, rule)
    shop.tick(shop.step(shop.rows["assemblies"][0], StepKind.REWORK), slot[0], at=AFTER)
    assert only(shop).verdict is verdict


def test_the_same_piece_put_back_is_still_passed(shop: Any, slot: Any) -> None:
    position, usage, _ = slot
    fitting = passed_on(shop, slot, FitRule.ANY_NEW_PIECE)
    shop.take_out(fitting, AFTER)
    lot = next(lot for lot in shop.rows["lots"] if lot.id == fitting.lot_id)
    shop.fit(lot, position, usage, from_at=Moment("2026-11-13T08:00:00Z"))
    assert only(shop).verdict is Verdict.PASSED


def test_on_a_stand_in_it_passes_only_until_that_is_replaced(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    stand_in = shop.fit(shop.lot(part), position, usage, stand_in=True)
    shop.result(shop.fit_test(shop.rows["assemblies"][0], usage), position, stand_in)
    assert only(shop).verdict is Verdict.PASSED
    shop.take_out(stand_in, AFTER)
    shop.fit(shop.lot(part), position, usage, from_at=AFTER)
    assert only(shop).verdict is Verdict.STALE


def test_results_before_a_remake_no_longer_count(shop: Any, slot: Any) -> None:
    passed_on(shop, slot)
    shop.change("positions", slot[0], remade_at=AFTER)
    assert only(shop).verdict is Verdict.DUE


def test_a_failed_fit_blocks_until_something_changes(shop: Any, slot: Any) -> None:
    position, usage, part = slot
    fitting = passed_on(shop, slot, outcome=FitOutcome.FAILED, what_then=WhatThen.REPRINT)
    assert kinds(shop, position) == [BlockerKind.FIT_FAILED]
    shop.take_out(fitting, AFTER)
    shop.fit(shop.lot(part), position, usage, from_at=AFTER)
    assert only(shop).verdict is Verdict.DUE


def test_a_failed_fit_that_is_used_as_it_is_does_not_block(shop: Any, slot: Any) -> None:
    passed_on(shop, slot, outcome=FitOutcome.FAILED, what_then=WhatThen.USE_AS_IS)
    assert only(shop).as_is
    assert kinds(shop, slot[0]) == []


def test_the_last_result_holds(shop: Any, slot: Any) -> None:
    fitting = passed_on(shop, slot, outcome=FitOutcome.FAILED, what_then=WhatThen.REWORK)
    shop.result(shop.rows["fit_tests"][0], slot[0], fitting, at=AFTER)
    assert only(shop).verdict is Verdict.PASSED


@pytest.fixture
def led(shop: Any) -> Any:
    """Paired legs, the left one first; returns (assembly, usage, part)."""
    legs = shop.assembly("LEG", shop.assembly("ROOT", shop.build()), paired=True)
    part = shop.part("FOOT")
    usage = shop.use(part, legs)
    test = shop.fit_test(legs, usage)
    return shop.change("assemblies", legs, lead_side=Side.LEFT, lead_test_id=test.id), usage, part


def test_the_other_side_is_held_until_the_lead_sides_fit_is_passed_and_fresh(shop: Any, led: Any) -> None:
    legs, usage, part = led
    left, right = (shop.position(legs, side) for side in (Side.LEFT, Side.RIGHT))
    assert [(slot.position, slot.held) for slot in shop.status().needs.slots] == [(left.id, False), (right.id, True)]
    assert kinds(shop, right) == [BlockerKind.HELD]
    fitting = shop.fit(shop.lot(part), left, usage)
    shop.result(shop.rows["fit_tests"][0], left, fitting)
    assert shop.status().fits.held_assembly_sides == {}
    assert BlockerKind.HELD not in kinds(shop, right)
    shop.take_out(fitting, AFTER)
    revision = shop.revise(part, "B", AFTER, OldGoodFor.STILL_GOOD)
    shop.fit(shop.lot(part, revision_id=revision.id), left, usage, from_at=AFTER)
    assert shop.status().fits.held_assembly_sides == {legs.id: Side.RIGHT}


def test_a_piece_used_as_it_is_proves_no_lead_side(shop: Any, led: Any) -> None:
    legs, usage, part = led
    left = shop.position(legs, Side.LEFT)
    fitting = shop.fit(shop.lot(part), left, usage)
    failed = {"outcome": FitOutcome.FAILED, "what_then": WhatThen.USE_AS_IS}
    shop.result(shop.rows["fit_tests"][0], left, fitting, **failed)
    assert shop.status().fits.held_assembly_sides == {legs.id: Side.RIGHT}


def test_what_is_held_is_left_out_of_what_can_be_done_now(shop: Any, led: Any) -> None:
    legs, usage, _ = led
    right = shop.position(legs, Side.RIGHT).id
    shop.fit(shop.lot(shop.part("SHOE")), shop.position(legs, Side.RIGHT), usage)
    shop.breaks(shop.rows["lots"][0])
    shop.step(legs, StepKind.SAND)
    assert kinds(shop, shop.position(legs, Side.RIGHT)) == [BlockerKind.DAMAGED, BlockerKind.HELD]
    assert all(right not in doable.position_ids for doable in shop.status().doable)


def test_what_is_below_a_held_side_is_held_with_it(shop: Any, led: Any) -> None:
    toes = shop.assembly("TOE", led[0])
    shop.use(shop.part("TIP"), toes)
    held = {slot.position for slot in shop.status().needs.slots if slot.held}
    assert held == {shop.position(place, Side.RIGHT).id for place in (led[0], toes)}
