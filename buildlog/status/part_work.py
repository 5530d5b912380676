"""Steps on parts: how many pieces of each lot have them done."""

from collections import Counter, defaultdict
from collections.abc import Iterable

from buildlog.facts.bench import Step, StepDone
from buildlog.facts.frozen import frozen
from buildlog.facts.pieces import Lot
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.methods.piece_work import Family, Tick, done_by_lot
from buildlog.terms import StepKind


@frozen
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
    on_pieces = [tick for tick in ticked if tick.lot_id is not None]
    kinds = {step.id: step.kind for step in snapshot.steps}
    made_good = frozenset(t.lot_id for t in on_pieces if t.lot_id is not None and kinds[t.step_id] in _JOINING)
    reworks = Counter(tick.lot_id for tick in reworked if tick.lot_id is not None)
    return PieceWork(steps_of, _done(snapshot, on_pieces), reworks, made_good)


def _done(snapshot: Snapshot, on_pieces: list[StepDone]) -> dict[int, dict[int, int]]:
    """Step by step, over the lots with ticks and all that was split off from them."""
    if not on_pieces:
        return {}
    children = grouped((lot for lot in snapshot.lots if lot.parent_id is not None), lambda lot: lot.parent_id)
    lots = snapshot.lot
    done: defaultdict[int, dict[int, int]] = defaultdict(dict)
    for step_id, ticks in grouped(on_pieces, lambda t: t.step_id).items():
        family: dict[int, Family] = {}
        waiting = [tick.lot_id for tick in ticks if tick.lot_id is not None]
        while waiting:
            lot = lots[waiting.pop()]
            if lot.id not in family:
                family[lot.id] = Family(lot.id, lot.parent_id, lot.quantity, lot.made_at)
                waiting += [child.id for child in children.get(lot.id, ())]
        counted = done_by_lot(family.values(), [Tick(t.lot_id or 0, t.at, t.pieces) for t in ticks])
        for lot_id, pieces in counted.items():
            done[lot_id][step_id] = pieces
    return dict(done)
