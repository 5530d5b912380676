"""Which fits are due, passed, failed or gone stale, and which lead sides are proven by theirs."""

from collections import defaultdict

from buildlog.facts.bench import FitResult, FitTest
from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.status.fit_judging import FitState, Verdict, judge
from buildlog.status.fit_slots import FitSlots
from buildlog.status.work import WorkDone
from buildlog.terms import FitKind, Moment, Side

__all__ = ["FitState", "Fits", "Verdict", "judge_fits"]


@frozen
class Fits:
    """``held_assembly_sides``: by assembly, the side that waits until the lead side's fit is passed and fresh.

    ``touched`` are the slots (position, usage, number) of each instance, by (test, position).
    """

    all: tuple[FitState, ...]
    by_position: dict[int, tuple[FitState, ...]]
    held_assembly_sides: dict[int, Side]
    touched: dict[tuple[int, int], tuple[tuple[int, int, int], ...]]


_CARRIES = (FitKind.LOAD, FitKind.ON_PERSON)


def judge_fits(snapshot: Snapshot, now: Moment, work: WorkDone) -> Fits:
    """Every live test in every live position of its assembly, compared with what stands in its slots at ``now``.

    A piece that lies allotted in an assembly without steps holds its slot too, but that is known only after the
    allotment: until `with_pieces_lying_there` its tests are *not yet*.
    """
    slots = FitSlots(snapshot, now, work)
    results = grouped((r for r in snapshot.fit_results if r.at <= now), lambda r: (r.fit_test_id, r.position_id))
    touches = grouped(snapshot.fit_touches, lambda t: t.fit_result_id)
    by_position: defaultdict[int, list[FitState]] = defaultdict(list)
    touched: dict[tuple[int, int], tuple[tuple[int, int, int], ...]] = {}
    for test in snapshot.fit_tests:
        if test.retired_at is not None:
            continue
        for position in snapshot.positions_of.get(test.assembly_id, ()):
            remade_at = position.remade_at if position.remade_at and position.remade_at <= now else ""
            last = _last(results.get((test.id, position.id), ()), remade_at)
            touched_then = touches.get(last.id, []) if last else []
            keys = slots.touched(test, position.id)
            state = judge(
                test,
                position.id,
                last,
                [(t, slots.stands((t.position_id, t.usage_id, t.number))) for t in touched_then],
                slots.changed(keys, touched_then),
                bool(keys) and all(slots.stands(key) is not None for key in keys),
                slots.load_until(position.id) if test.kind in _CARRIES else None,
            )
            by_position[position.id].append(state)
            touched[test.id, position.id] = tuple(keys)
    every = tuple(state for states in by_position.values() for state in states)
    found = {position_id: tuple(states) for position_id, states in by_position.items()}
    return Fits(every, found, _held_sides(snapshot, found), touched)


def _last(results: list[FitResult] | tuple[FitResult, ...], remade_at: str) -> FitResult | None:
    """The newest result since the position was last made anew."""
    counting = [result for result in results if result.at >= remade_at]
    return max(counting, key=lambda result: (result.at, result.id)) if counting else None


def _held_sides(snapshot: Snapshot, by_position: dict[int, tuple[FitState, ...]]) -> dict[int, Side]:
    tests = {test.id: test for test in snapshot.fit_tests}
    held: dict[int, Side] = {}
    for assembly in snapshot.assemblies:
        if assembly.lead_side is None or assembly.lead_test_id is None or assembly.retired_at is not None:
            continue
        if not _is_proven(snapshot, tests[assembly.lead_test_id], assembly.lead_side, by_position):
            held[assembly.id] = assembly.lead_side.other
    return held


def _is_proven(
    snapshot: Snapshot, test: FitTest, lead_side: Side, by_position: dict[int, tuple[FitState, ...]]
) -> bool:
    """Passed and fresh at least once on the lead side, and nowhere there due, failed or stale.

    Where the lead side has several positions, one that cannot be tested yet does not hold the proof back.
    """
    verdicts = [
        Verdict.FAILED if state.as_is else state.verdict
        for position in snapshot.positions_of.get(test.assembly_id, ())
        if position.side is not lead_side.other
        for state in by_position.get(position.id, ())
        if state.test_id == test.id
    ]
    tested = [verdict for verdict in verdicts if verdict is not Verdict.NOT_YET]
    return bool(tested) and all(verdict.holds for verdict in tested)
