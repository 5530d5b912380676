"""Steps, cures and fits to catch up with."""

from collections.abc import Iterator
from typing import Any

from buildlog.facts.bench import Step
from buildlog.facts.naming import position_name
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.notes import AddNote
from buildlog.proposals.places import PiecesNamed, read_place
from buildlog.proposals.steps import ReopenStep, TickStep
from buildlog.status.blocker import Thing
from buildlog.status.cautions import caution_of_step, caution_of_test
from buildlog.status.day_rhythm import when_up
from buildlog.status.doable import Doable
from buildlog.status.due import Asking, Due, DueKind, Reply, in_words
from buildlog.status.fits import FitState, Verdict
from buildlog.status.since_when import SinceWhen
from buildlog.status.status import Status
from buildlog.terms import FitOutcome, Moment, later

ASKING = (Verdict.DUE, Verdict.STALE, Verdict.SPOT_CHECK)
FAILED_FIT = ("what_then", "measured", "scrap", "text", "overruled")
FOUND = ("outcome", "measured", "what_then", "scrap", "text", "overruled")


def due_steps(status: Status, since: Moment, opened: SinceWhen) -> Iterator[Due]:
    """Steps that were open for as long as they take, in the order of when they could have been done."""
    steps = {step.id: step for step in status.snapshot.steps}
    found = []
    for doable in status.doable:
        if doable.about.noun == "step":
            step = steps[doable.about.id]
            place = doable.position_id
            on_pieces = step.part_id is not None
            opened_at = opened.step_on(step) if on_pieces or place is None else opened.step_in(step, place)
            if later(max(opened_at, since), step.bench_minutes) <= status.now:
                found.append(_step(status, step, doable, max(opened_at, since)))
    yield from sorted(found, key=lambda due: (due.due_at, due.where, due.key))


def due_fits(status: Status, since: Moment, opened: SinceWhen) -> Iterator[Due]:
    """Fits that ask for a test and could have been tried; failed ones wait for what is to be done about them,
    those of a side that is held on purpose for the other one.
    """
    found = []
    for state in status.fits.all:
        held = state.position_id in status.needs.held_positions
        if state.verdict in ASKING and state.can_test and state.load_until is None and not held:
            opened_at = max(opened.fit(state.test_id, state.position_id), since)
            if opened_at < status.now:
                found.append(_fit(status, state, opened_at))
    yield from sorted(found, key=lambda due: (due.due_at, due.where, due.key))


def due_cures(status: Status, since: Moment) -> Iterator[Due]:
    """Joints that were curing when the ledger was left, are over by now, and that no step goes on from."""
    steps = {step.id: step for step in status.snapshot.steps}
    for (step_id, position_id), tick in status.work.ticks.items():
        step = steps[step_id]
        over = later(tick.at, max(step.handle_after_minutes, step.load_after_minutes))
        if tick.at <= since < over <= status.now and status.work.by_position[position_id].next_step is None:
            place = position_name(status.snapshot, position_id)
            again = Asking(ReopenStep, {"step": step.code, "place": read_place(place)}, (), None)
            yield Due(
                key=f"cure:{step_id}-{position_id}",
                kind=DueKind.CURE,
                about=Thing("step", step_id, step.name),
                where=place,
                what=f"{step.name}: cured",
                told=f"over {in_words(status, over)}",
                due_at=over,
                as_planned=Reply("it holds"),
                failed=Reply("did not hold", again),
                not_done=Reply("nobody has looked"),
                whole=again,
                position_id=position_id,
            )


def _step(status: Status, step: Step, doable: Doable, opened_at: Moment) -> Due:
    at = _done_at(status, opened_at, step.bench_minutes)
    values, about, where = _where(status, step, doable)
    wrong = Asking(AddNote, {"about": about}, ("text", "photo"), at)
    more = ("real_time", "overruled") if step.part_id is None else ("pieces", "real_time", "overruled")
    return Due(
        key=f"step:{step.id}-{0 if step.part_id is not None else doable.position_id}",
        kind=DueKind.STEP,
        about=doable.about,
        where=where,
        what=doable.text,
        told=f"done {in_words(status, at)}, open since {in_words(status, opened_at, at)}",
        due_at=at,
        as_planned=Reply("done", Asking(TickStep, values, (), at)),
        failed=Reply("went wrong: a note", wrong),
        not_done=Reply("stays open"),
        whole=Asking(TickStep, values, more, at),
        position_id=doable.position_id,
        caution_key=caution_of_step(step.kind),
    )


def _where(status: Status, step: Step, doable: Doable) -> tuple[dict[str, Any], str, str]:
    """What a tick names, what a note is about, and where it is done."""
    if step.part_id is not None:
        code = status.snapshot.part[step.part_id].code
        return {"step": step.code, "what": PiecesNamed(code=code)}, f"part {code}", code
    place = position_name(status.snapshot, doable.position_id or 0)
    return {"step": step.code, "place": read_place(place)}, place, place


def _fit(status: Status, state: FitState, opened_at: Moment) -> Due:
    test = next(test for test in status.snapshot.fit_tests if test.id == state.test_id)
    place = position_name(status.snapshot, state.position_id)
    at = _done_at(status, opened_at, test.bench_minutes)
    values = {"test": test.code, "place": read_place(place), "spot_check": state.verdict is Verdict.SPOT_CHECK}
    failed = values | {"outcome": FitOutcome.FAILED.value}
    passed = values | {"outcome": FitOutcome.PASSED.value}
    return Due(
        key=f"fit:{test.id}-{state.position_id}",
        kind=DueKind.FIT,
        about=Thing("fit test", test.id, test.name),
        where=place,
        what=test.name if state.verdict is Verdict.DUE else f"{test.name}: {state.verdict.value}",
        told=f"tested {in_words(status, at)}, due since {in_words(status, opened_at, at)}",
        due_at=at,
        as_planned=Reply("passed", Asking(RecordFit, passed, (), at)),
        failed=Reply("failed: what then", Asking(RecordFit, failed, FAILED_FIT, at)),
        not_done=Reply("not tested yet"),
        whole=Asking(RecordFit, values, FOUND, at),
        position_id=state.position_id,
        caution_key=caution_of_test(test.kind),
    )


def _done_at(status: Status, opened_at: Moment, minutes: int) -> Moment:
    """By day, after as long as it takes; never later than now."""
    return min(later(when_up(opened_at, status.snapshot.settings), minutes), status.now)
