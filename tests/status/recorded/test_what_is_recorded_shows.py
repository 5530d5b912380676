"""What actions write is read back as needs, blockers and fits."""

from collections.abc import Callable
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.places import Place
from buildlog.proposals.steps import TickStep
from buildlog.status.blocker import BlockerKind
from buildlog.status.fits import Verdict
from buildlog.status.fitting_pieces import fitted_by_step
from buildlog.status.slot import Holds
from buildlog.status.status import Status, take_stock
from buildlog.terms import Moment, Side

BEGAN = Moment("2026-11-01T06:00:00Z")
MADE = "2026-11-20T08:00:00Z"
GLUED = Moment("2026-11-21T08:00:00Z")
LATER = "2026-11-22T08:00:00Z"
LEG_L = Place("LEG", Side.LEFT)


@pytest.fixture
def look(ledger: Ledger) -> Callable[[], Status]:
    return lambda: take_stock(ledger.snapshot(), ledger.now())


def position_id(status: Status, code: str, side: Side = Side.NONE) -> int:
    (assembly,) = [a.id for a in status.snapshot.assemblies if a.code == code]
    (found,) = [p.id for p in status.snapshot.positions if p.assembly_id == assembly and p.side is side]
    return found


def kinds(status: Status, side: Side) -> set[BlockerKind]:
    return {leaf.kind for leaf in status.blockers.leaves.get(position_id(status, "LEG", side), ())}


@pytest.fixture
def glued(beetle: Ledger, add: Any, do: Any, look: Any) -> Ledger:
    """Two shins lie there for the left leg and are glued in on the 21st; the gap was tested then."""
    add("step", BEGAN, code="GLUE", name="glue", assembly="LEG", kind="bond", bench_time="30")
    add("fit test", BEGAN, code="GAP", name="gap", assembly="LEG", parts="SHIN", kind="clearance", low="0.2")
    do("count_part", MADE, part="SHIN", side="L", pieces="2")
    status = take_stock(beetle.snapshot(), GLUED)
    left, step = position_id(status, "LEG", Side.LEFT), status.snapshot.steps[0]
    fits = fitted_by_step(status.needs, status.work, step.id, left)
    beetle.record(TickStep(step="GLUE", place=LEG_L, fits=fits), GLUED)
    beetle.record(RecordFit(test="GAP", place=LEG_L, measured=300), GLUED)
    return beetle


def test_a_joint_is_open_once_its_pieces_lie_there(beetle: Ledger, add: Any, do: Any, look: Any) -> None:
    add("step", BEGAN, code="GLUE", name="glue", assembly="LEG", kind="bond", bench_time="30")
    assert BlockerKind.STEP_OPEN not in kinds(look(), Side.LEFT)
    do("count_part", MADE, part="SHIN", side="L", pieces="2")
    assert kinds(look(), Side.LEFT) == {BlockerKind.STEP_OPEN}


def test_ticking_it_fills_the_slots_and_the_fit_passes(glued: Ledger, look: Any) -> None:
    status = look()
    left = position_id(status, "LEG", Side.LEFT)
    assert [slot.holds for slot in status.needs.by_position[left]] == [Holds.FILLED, Holds.FILLED]
    assert [state.verdict for state in status.fits.by_position[left]] == [Verdict.PASSED]
    assert status.blockers.is_ready(left)


def test_taking_a_piece_out_reopens_the_joint_and_keeps_the_piece(glued: Ledger, do: Any, look: Any) -> None:
    do("take_out", LATER, slot="LEG L / SHIN 1")
    status = look()
    left = position_id(status, "LEG", Side.LEFT)
    assert [slot.holds for slot in status.needs.by_position[left]] == [Holds.ALLOTTED, Holds.FILLED]
    assert kinds(status, Side.LEFT) == {BlockerKind.STEP_OPEN}


def test_revising_makes_old_pieces_stand_in(glued: Ledger, do: Any, look: Any) -> None:
    do("revise", LATER, part="SHIN", old="stand-ins", bonded="leave")
    assert BlockerKind.STAND_IN in kinds(look(), Side.LEFT)


def test_no_good_pieces_are_to_take_out(glued: Ledger, do: Any, look: Any) -> None:
    do("revise", LATER, part="SHIN", old="no good")
    assert BlockerKind.TAKE_OUT in kinds(look(), Side.LEFT)


def test_a_successor_takes_over_slots_and_what_stands_there_stands_in(
    glued: Ledger, add: Any, do: Any, look: Any
) -> None:
    add("part", BEGAN, code="SHIN2", name="Shin", build="LB", handed="yes", stage="drawn", print_time="5:00")
    do("supersede", LATER, part="SHIN", by="SHIN2")
    status = look()
    (new,) = [part.id for part in status.snapshot.parts if part.code == "SHIN2"]
    need = status.needs.by_part[new, Side.LEFT]
    assert (need.needed, need.usable, need.stood_in) == (2, 0, 2)
    assert status.needs.take_out == ()
    left = position_id(status, "LEG", Side.LEFT)
    assert [state.verdict for state in status.fits.by_position[left]] == [Verdict.STALE]


def test_a_failed_fit_owes_its_rework_and_then_a_new_test(glued: Ledger, look: Any) -> None:
    failed = RecordFit(test="GAP", place=LEG_L, measured=100, what_then="rework")
    glued.record(failed, Moment(LATER))
    status = look()
    assert kinds(status, Side.LEFT) == {BlockerKind.FIT_FAILED, BlockerKind.STEP_OPEN}
    assert BlockerKind.STEP_OPEN not in kinds(status, Side.RIGHT)
    (rework,) = [step.code for step in status.snapshot.steps if step.code != "GLUE"]
    glued.record(TickStep(step=rework, place=LEG_L), Moment("2026-11-23T08:00:00Z"))
    assert kinds(look(), Side.LEFT) == {BlockerKind.FIT_DUE}


def test_a_missing_piece_is_found_again(beetle: Ledger, do: Any, look: Any) -> None:
    do("count_part", MADE, part="SHIN", side="L", pieces="2")
    assert look().blockers.is_ready(position_id(look(), "LEG", Side.LEFT))
    do("mark_missing", LATER, what="SHIN L", pieces="1")
    assert BlockerKind.MISSING in kinds(look(), Side.LEFT)
    do("found_pieces", LATER, what="SHIN L")
    assert kinds(look(), Side.LEFT) == set()
