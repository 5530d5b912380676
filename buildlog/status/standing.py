"""What stands in the slots at a moment, and whether it is the right piece there."""

from buildlog.facts.frozen import frozen
from buildlog.facts.pieces import Fitting, Lot
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Part, Position
from buildlog.status.old_pieces import OldPieces
from buildlog.status.part_work import PieceWork
from buildlog.terms import Moment, Origin, Side

SlotKey = tuple[int, int, int]
"""Position, usage, number."""


def standing_now(snapshot: Snapshot, now: Moment) -> dict[SlotKey, Fitting]:
    """What stands in each slot at ``now``."""
    return {
        (f.position_id, f.usage_id, f.number): f
        for f in snapshot.fittings
        if f.from_at <= now and (f.until_at is None or f.until_at > now)
    }


def broken_lots(snapshot: Snapshot, now: Moment) -> set[int]:
    """Lots out of use by a damage not repaired."""
    return {
        damage.lot_id
        for damage in snapshot.damages
        if damage.out_of_use and damage.at <= now and (damage.repaired_at is None or damage.repaired_at > now)
    }


@frozen
class RightPieces:
    """Tells whether a fitting fills its slot at ``now``. A piece out of use does not: it stands in until repaired."""

    lots: dict[int, Lot]
    old: OldPieces
    broken: set[int]
    work: PieceWork
    now: Moment

    def fills(self, fitting: Fitting, position: Position, part: Part, side: Side) -> bool:
        if position.remade_at is not None and fitting.from_at < position.remade_at <= self.now:
            return False
        if fitting.lot_id in self.broken:
            return False
        if fitting.left_as_is:
            return True
        if fitting.stand_in or fitting.what:
            return False
        if fitting.lot_id is None:
            return part.origin is Origin.BOUGHT
        lot = self.lots[fitting.lot_id]
        return lot.part_id == part.id and lot.side is side and (lot.revision_id, side) not in self.old.answers

    def has_open_steps(self, fitting: Fitting, part: Part) -> bool:
        """Whether steps on the part are still to be done on a piece that is fitted already."""
        if fitting.lot_id is None or fitting.left_as_is or part.id not in self.work.steps_of:
            return False
        return bool(self.work.open_steps(fitting.lot_id, part.id))
