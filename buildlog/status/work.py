"""Which bench work is done, what cures, and which step of a position is next."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from buildlog.facts.bench import Step, StepDone
from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.status.part_work import PieceWork, tick_off_pieces
from buildlog.terms import Moment, StepKind, later


class PositionWork(NamedTuple):
    """``next_step`` is the first step not done, None when all are; until ``handle_until`` (None: over) it may not
    begin. Until ``load_until`` nothing may carry load or be worn. Minutes are bench minutes of the position's own
    steps, not of those below.
    """

    position_id: int
    done_minutes: int
    total_minutes: int
    next_step: Step | None
    handle_until: Moment | None
    load_until: Moment | None


@frozen
class WorkDone:
    """``ticks`` by (step, position) are those that count: not reopened, not from before a remake.

    ``steps_in`` are the steps that a live position owes, in order, and ``by_position`` what is done of them; both
    lack positions without steps. ``reworks`` counts rework done in a position, reopened or not. ``jigs_taken`` names
    the moment at which one of a jig that is all taken comes free. ``pieces`` is the work on pieces.
    """

    ticks: dict[tuple[int, int], StepDone]
    steps_in: dict[int, tuple[Step, ...]]
    by_position: dict[int, PositionWork]
    reworks: dict[int, int]
    jigs_taken: dict[int, Moment]
    pieces: PieceWork

    def load_until_beneath(self, position_id: int, children: Mapping[int, Iterable[int]]) -> Moment | None:
        """When the last cure at and below a position is over that keeps load off it; None when none does."""
        found: Moment | None = None
        waiting = [position_id]
        while waiting:
            place = waiting.pop()
            waiting += children.get(place, ())
            done = self.by_position.get(place)
            if done and done.load_until and (found is None or done.load_until > found):
                found = done.load_until
        return found


def tick_off(snapshot: Snapshot, now: Moment) -> WorkDone:
    """Work as of ``now``; ticks dated later are left out."""
    known = [tick for tick in snapshot.steps_done if tick.at <= now]
    ticked = [tick for tick in known if tick.reopened_at is None or tick.reopened_at > now]
    steps = {step.id: step for step in snapshot.steps}
    reworked = [t for t in known if steps[t.step_id].kind is StepKind.REWORK and t.reopened_at != t.at]
    live = sorted((s for s in snapshot.steps if s.retired_at is None), key=lambda s: (s.place, s.id))
    ticks = _ticks_that_count(snapshot, ticked, now)
    steps_in = _steps_owed(snapshot, live, known)
    return WorkDone(
        ticks,
        steps_in,
        {position_id: _position_work(position_id, own, ticks, now) for position_id, own in steps_in.items()},
        Counter(tick.position_id for tick in reworked if tick.position_id is not None),
        _jigs_taken(snapshot, ticked, steps, now),
        tick_off_pieces(snapshot, ticked, reworked, live),
    )


def _steps_owed(snapshot: Snapshot, live: list[Step], known: list[StepDone]) -> dict[int, tuple[Step, ...]]:
    """Rework that was called for anywhere (a tick opened again in the same moment) is owed only where it was."""
    calls = {(t.step_id, t.position_id) for t in known if t.reopened_at == t.at and t.position_id is not None}
    called = {step_id for step_id, _ in calls}
    owed: dict[int, tuple[Step, ...]] = {}
    for assembly_id, own in grouped(live, lambda s: s.assembly_id).items():
        if assembly_id is None:
            continue
        some = any(step.kind is StepKind.REWORK and step.id in called for step in own)
        for position in snapshot.positions_of.get(assembly_id, ()):
            here = own
            if some:
                here = [s for s in own if s.kind is not StepKind.REWORK or s.id not in called
                        or (s.id, position.id) in calls]  # fmt: skip
            if here:
                owed[position.id] = tuple(here)
    return owed


def _ticks_that_count(snapshot: Snapshot, ticked: list[StepDone], now: Moment) -> dict[tuple[int, int], StepDone]:
    counting: dict[tuple[int, int], StepDone] = {}
    for tick in ticked:
        if tick.position_id is None:
            continue
        position = snapshot.position[tick.position_id]
        if position.remade_at is not None and tick.at < position.remade_at <= now:
            continue
        known = counting.get((tick.step_id, tick.position_id))
        if known is None or known.at <= tick.at:
            counting[tick.step_id, tick.position_id] = tick
    return counting


def _position_work(
    position_id: int, own: tuple[Step, ...], ticks: dict[tuple[int, int], StepDone], now: Moment
) -> PositionWork:
    done_minutes = total_minutes = 0
    next_step: Step | None = None
    handle_until: Moment | None = None
    load_until: Moment | None = None
    for step in own:
        total_minutes += step.bench_minutes
        tick = ticks.get((step.id, position_id))
        if tick is None:
            next_step = next_step or step
            continue
        done_minutes += step.bench_minutes
        if step.handle_after_minutes:
            handle_until = max(handle_until or tick.at, later(tick.at, step.handle_after_minutes))
        if step.load_after_minutes:
            load_until = max(load_until or tick.at, later(tick.at, step.load_after_minutes))
    return PositionWork(
        position_id,
        done_minutes,
        total_minutes,
        next_step,
        handle_until if handle_until and handle_until > now else None,
        load_until if load_until and load_until > now else None,
    )


def _jigs_taken(snapshot: Snapshot, ticked: list[StepDone], steps: dict[int, Step], now: Moment) -> dict[int, Moment]:
    """A step keeps its jig until what it joined may be handled."""
    ends: defaultdict[int, list[Moment]] = defaultdict(list)
    for tick in ticked:
        step = steps[tick.step_id]
        if step.jig_id is not None and step.handle_after_minutes:
            free_at = later(tick.at, step.handle_after_minutes)
            if free_at > now:
                ends[step.jig_id].append(free_at)
    counts = {resource.id: resource.count for resource in snapshot.resources}
    return {jig: sorted(taken)[len(taken) - counts[jig]] for jig, taken in ends.items() if len(taken) >= counts[jig]}
