"""What every slot holds, and what is still to get: the allotment."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.fits import Fits
from buildlog.status.slot import Slot
from buildlog.status.work import WorkDone
from buildlog.terms import Moment, Side


@dataclass(frozen=True, slots=True)
class PartNeed:
    """Counted in slots of open builds: ``needed = usable + under_way + to_get``.

    ``usable`` are fitted or allotted (pieces with open steps too), ``held`` and ``stood_in`` are among those counted
    otherwise. Spares are on a line of their own: ``spares_to_get`` is what neither pieces left over nor prints under
    way left over cover.
    """

    part_id: int
    side: Side
    needed: int
    usable: int
    under_way: int
    to_get: int
    held: int
    stood_in: int
    spares_wanted: int
    spares_to_get: int


@dataclass(frozen=True, slots=True)
class Needs:
    """``slots`` of open builds in allotment order; ``by_position`` has those of paused and closed builds too, as they
    stand (they claim nothing: filled or to get). A key is (part, side of the piece), side none for a neutral part.

    ``spare_pieces`` counts free pieces that count and no slot took, ``free_lots`` (lot, pieces) names them, oldest
    first. ``take_out`` are fittings whose slot is no more.
    """

    slots: tuple[Slot, ...]
    by_position: dict[int, tuple[Slot, ...]]
    by_part: dict[tuple[int, Side], PartNeed]
    free_lots: dict[tuple[int, Side], tuple[tuple[int, int], ...]]
    take_out: tuple[int, ...]

    def spare_pieces(self, part_id: int, side: Side) -> int:
        return sum(pieces for _, pieces in self.free_lots.get((part_id, side), ()))


def allot(snapshot: Snapshot, now: Moment, accounts: Accounts, work: WorkDone, fits: Fits) -> Needs:
    """Lay pieces, prints under way and bought stock against slots by the rules of the allotment."""
    raise NotImplementedError
