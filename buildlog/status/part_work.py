"""Steps on parts: how many pieces of each lot have them done."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from buildlog.facts.bench import Step, StepDone
from buildlog.facts.pieces import Lot
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.terms import Moment, StepKind


@dataclass(frozen=True, slots=True)
class PieceWork:
    """``steps_of`` are the live steps on a part in order. ``done`` counts pieces by lot and step.

    ``reworks`` counts rework ticks by lot, ``made_good`` are salvage lots that were joined into one.
    """

    steps_of: dict[int, tuple[Step, ...]]
    done: dict[int, dict[int, int]]
    reworks: dict[int, int]
    made_good: frozenset[int]

    def finished(self, lot: Lot) -> int:
        """Pieces of a lot that no step on the part is open for."""
        steps = self.steps_of.get(lot.part_id)
        if not steps:
            return lot.quantity
        done = self.done.get(lot.id, {})
        return min(done.get(step.id, 0) for step in steps)

    def open_steps(self, lot_id: int, part_id: int) -> tuple[Step, ...]:
        """The steps that are not done on every piece of a lot of one."""
        done = self.done.get(lot_id, {})
        return tuple(step for step in self.steps_of.get(part_id, ()) if not done.get(step.id))


_JOINING = (StepKind.REWORK, StepKind.BOND, StepKind.SOLVENT_BOND, StepKind.ASSEMBLE)


def tick_off_pieces(
    snapshot: Snapshot, ticked: Iterable[StepDone], reworked: Iterable[StepDone], live: Iterable[Step]
) -> PieceWork:
    """``ticked`` hold at the moment asked for, ``reworked`` are all ticks of rework by then; ``live`` are the steps
    not retired, in order.
    """
    steps_of = {
        part_id: tuple(found) for part_id, found in grouped(live, lambda s: s.part_id).items() if part_id is not None
    }
    by_lot = grouped((t for t in ticked if t.lot_id is not None), lambda t: t.lot_id)
    done: dict[int, dict[int, int]] = {}
    if by_lot:
        children = grouped((lot for lot in snapshot.lots if lot.parent_id is not None), lambda lot: lot.parent_id)
        lots = {lot.id: lot for lot in snapshot.lots}
        inherited: dict[int, dict[int, int]] = {}
        for lot in _from_the_root(by_lot.keys(), lots, children):
            done[lot.id] = _count(lot, by_lot.get(lot.id, []), inherited.pop(lot.id, {}), children, inherited)
    kinds = {step.id: step.kind for step in snapshot.steps}
    reworks = Counter(tick.lot_id for tick in reworked if tick.lot_id is not None)
    joined = (lot_id for lot_id, ticks in by_lot.items() if any(kinds[t.step_id] in _JOINING for t in ticks))
    return PieceWork(steps_of, done, reworks, frozenset(lot_id for lot_id in joined if lot_id is not None))


def _from_the_root(
    ticked: Iterable[int | None], lots: dict[int, Lot], children: dict[int | None, list[Lot]]
) -> Iterable[Lot]:
    """Lots with ticks and all that was split off from them, parents first (they have the lower id)."""
    touched: set[int] = set()
    waiting = [lot_id for lot_id in ticked if lot_id is not None]
    while waiting:
        lot_id = waiting.pop()
        if lot_id not in touched:
            touched.add(lot_id)
            waiting += [child.id for child in children.get(lot_id, ())]
    return [lots[lot_id] for lot_id in sorted(touched)]


def _count(
    lot: Lot,
    ticks: list[StepDone],
    begins_with: dict[int, int],
    children: dict[int | None, list[Lot]],
    inherited: dict[int, dict[int, int]],
) -> dict[int, int]:
    """Replay ticks and splits of one lot; what is split off takes the finished pieces along first."""
    done: defaultdict[int, int] = defaultdict(int, begins_with)
    events: list[tuple[Moment, int, StepDone | Lot]] = [(t.at, 0, t) for t in ticks]
    events += [(child.made_at, 1, child) for child in children.get(lot.id, ())]
    left = lot.quantity
    for _, _, event in sorted(events, key=lambda e: (e[0], e[1], e[2].id)):
        if isinstance(event, StepDone):
            done[event.step_id] = min(left, done[event.step_id] + event.pieces)
            continue
        taken = {step_id: min(event.quantity, count) for step_id, count in done.items()}
        inherited[event.id] = taken
        left -= event.quantity
        for step_id, count in taken.items():
            done[step_id] -= count
    return dict(done)
