"""Which pieces a tick or a fit puts into their slots."""

from typing import Any

import pytest

from buildlog.proposals.places import read_place
from buildlog.proposals.steps import TickStep, TickSteps
from buildlog.status.completing import completed
from buildlog.status.fits import Verdict
from buildlog.status.fitting_pieces import fitted_by_step, fitted_by_test
from buildlog.terms import Moment, OldGoodFor, StepKind


@pytest.fixture
def slot(shop: Any) -> Any:
    """Two slots for FOOT and one piece; returns (assembly, position, usage, lot)."""
    root = shop.assembly("ROOT", shop.build())
    part = shop.part("FOOT")
    return root, shop.position(root), shop.use(part, root, 2), shop.lot(part)


def test_the_first_joint_fits_what_was_allotted(shop: Any, slot: Any) -> None:
    root, position, usage, lot = slot
    sanding, joint, second = (shop.step(root, kind) for kind in (StepKind.SAND, StepKind.BOND, StepKind.ASSEMBLE))
    status = shop.status()
    assert fitted_by_step(status.needs, status.work, joint.id, position.id) == ((usage.id, 1, lot.id),)
    for step in (sanding, second):
        assert fitted_by_step(status.needs, status.work, step.id, position.id) == ()


def test_without_a_joint_the_last_step_fits_them(shop: Any, slot: Any) -> None:
    root, position, usage, lot = slot
    first, last = (shop.step(root, StepKind.SAND) for _ in range(2))
    status = shop.status()
    assert fitted_by_step(status.needs, status.work, first.id, position.id) == ()
    assert fitted_by_step(status.needs, status.work, last.id, position.id) == ((usage.id, 1, lot.id),)


def test_a_piece_with_open_steps_is_not_fitted(shop: Any, slot: Any) -> None:
    root, position, _, _ = slot
    joint = shop.step(root)
    shop.step(shop.rows["parts"][0], StepKind.SAND)
    status = shop.status()
    assert fitted_by_step(status.needs, status.work, joint.id, position.id) == ()


def test_a_fit_tries_the_pieces_that_lie_there_for_its_slots(shop: Any, slot: Any) -> None:
    root, position, usage, lot = slot
    other = shop.use(shop.part("HEAD"), root)
    shop.lot(shop.rows["parts"][1])
    test = shop.fit_test(root, usage)
    status = shop.status()
    assert other.id != usage.id
    assert fitted_by_test(status.needs, status.fits, test.id, position.id) == ((position.id, usage.id, 1, lot.id),)


def test_a_fit_of_pieces_that_fill_by_lying_there_is_due(shop: Any, slot: Any) -> None:
    root, _, usage, _ = slot
    shop.fit_test(root, usage)
    assert [state.verdict for state in shop.status().fits.all] == [Verdict.NOT_YET]
    shop.lot(shop.rows["parts"][0])
    assert [(state.verdict, state.can_test) for state in shop.status().fits.all] == [(Verdict.DUE, True)]


def test_a_joint_told_late_fits_what_was_allotted_then(shop: Any, slot: Any) -> None:
    root, _, usage, lot = slot
    joint = shop.step(root)
    revised = Moment("2026-11-20T08:00:00Z")
    revision = shop.revise(shop.rows["parts"][0], "B", revised, OldGoodFor.NO_GOOD)
    newer = shop.lot(shop.rows["parts"][0], revision_id=revision.id, made_at=revised)
    tick = TickStep(step=joint.code, place=read_place("ROOT"))
    status, before = shop.status(), Moment("2026-11-19T08:00:00Z")
    assert completed(tick, status).fits == ((usage.id, 1, newer.id),)
    assert completed(tick, status, before).fits == ((usage.id, 1, lot.id),)
    assert completed(TickSteps((tick,)), status, before).ticks[0].fits == ((usage.id, 1, lot.id),)


def test_a_joint_from_before_the_build_was_described_fits_what_lay_there(shop: Any) -> None:
    root = shop.assembly("ROOT", shop.build())
    shop.position(root)
    part, joint = shop.part("FOOT"), shop.step(root)
    described, before = Moment("2026-11-20T08:00:00Z"), Moment("2026-11-19T08:00:00Z")
    usage, lot = shop.use(part, root, since_at=described), shop.lot(part)
    tick = TickStep(step=joint.code, place=read_place("ROOT"))
    assert completed(tick, shop.status(), before).fits == ((usage.id, 1, lot.id),)


def test_a_joint_from_before_a_part_was_superseded_fits_the_one_of_then(shop: Any) -> None:
    root = shop.assembly("ROOT", shop.build())
    shop.position(root)
    old, new, joint = shop.part("FOOT"), shop.part("FOOT-2"), shop.step(root)
    superseded, before = Moment("2026-11-20T08:00:00Z"), Moment("2026-11-19T08:00:00Z")
    usage = shop.use(old, root, ended_at=superseded)
    shop.use(new, root, since_at=superseded)
    old_lot = shop.lot(old)
    shop.lot(new)
    tick = TickStep(step=joint.code, place=read_place("ROOT"))
    assert completed(tick, shop.status(), before).fits == ((usage.id, 1, old_lot.id),)
