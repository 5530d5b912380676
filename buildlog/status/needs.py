"""What every slot holds, and what is still to get: the allotment."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from buildlog.facts.frozen import frozen
from buildlog.facts.pieces import Fitting
from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.fits import Fits
from buildlog.status.held import held_parts, held_positions
from buildlog.status.needs_order import Group, builds_in_order, groups_of_builds
from buildlog.status.old_pieces import OldPieces, judge_old
from buildlog.status.openings import Opening, Openings
from buildlog.status.part_need import PartNeed, count_needs
from buildlog.status.pools import NOTHING, Taken
from buildlog.status.shelf import Shelf
from buildlog.status.slot import FILLED, TO_GET, Slot
from buildlog.status.standing import RightPieces, SlotKey, broken_lots, standing_now
from buildlog.status.work import WorkDone
from buildlog.terms import BuildState, Moment, Side

__all__ = ["Needs", "PartNeed", "allot"]


@frozen
class Needs:
    """``slots`` of open builds in allotment order; ``by_position`` has those of paused and closed builds too, as they
    stand (they claim nothing: filled or to get). A key is (part, side of the piece), side none for a neutral part.

    ``free_lots`` are (lot, pieces) that count and that no slot took, good ones before seconds, oldest first.
    ``take_out`` are fittings whose slot is no more. ``held_positions`` names by position on a held side the assembly
    whose lead side it waits for, ``held_parts`` the side that waits of a part. ``old`` tells which revisions count.
    """

    slots: tuple[Slot, ...]
    by_position: dict[int, tuple[Slot, ...]]
    by_part: dict[tuple[int, Side], PartNeed]
    free_lots: dict[tuple[int, Side], tuple[tuple[int, int], ...]]
    take_out: tuple[int, ...]
    held_positions: dict[int, int]
    held_parts: dict[int, Side]
    old: OldPieces


def allot(snapshot: Snapshot, now: Moment, accounts: Accounts, work: WorkDone, fits: Fits) -> Needs:
    """Lay pieces, prints under way and bought stock against slots by the rules of the allotment."""
    old = judge_old(snapshot, now)
    openings = Openings(snapshot, now)
    claiming, resting = _groups(snapshot)
    held_at, of_parts = held_positions(snapshot, fits), held_parts(snapshot)
    right = RightPieces(snapshot.lot, old, broken_lots(snapshot, now), work.pieces, now)
    serving = _Serving(standing_now(snapshot, now), right, Shelf(snapshot, accounts, work, old))
    serving.serve(openings.of(claiming), held_at, of_parts)
    by_position: defaultdict[int, list[Slot]] = defaultdict(list)
    for slot in serving.served:
        by_position[slot.position].append(slot)
    for slot in serving.resting(openings.of(resting)):
        by_position[slot.position].append(slot)
    return Needs(
        tuple(serving.served),
        {position_id: tuple(found) for position_id, found in by_position.items()},
        count_needs(serving.served, openings.spares_wanted(claiming), serving.shelf.spare),
        {key: left for key, pool in serving.shelf.pieces.items() if (left := pool.left())},
        tuple(fitting.id for fitting in serving.standing.values()),
        held_at,
        of_parts,
        old,
    )


def _groups(snapshot: Snapshot) -> tuple[list[Group], list[Group]]:
    """Groups of positions of open builds in allotment order, and those of paused and closed ones."""
    of_build = groups_of_builds(snapshot)
    claiming: list[Group] = []
    resting: list[Group] = []
    for build in builds_in_order(snapshot):
        (claiming if build.state is BuildState.OPEN else resting).extend(of_build.get(build.id, ()))
    return claiming, resting


class _Serving:
    """Ranks the slots and fills them; what is left in ``standing`` at the end has no slot."""

    def __init__(self, standing: dict[SlotKey, Fitting], right: RightPieces, shelf: Shelf) -> None:
        self.standing, self.right, self.shelf = standing, right, shelf
        self.served: list[Slot] = []
        self.with_steps = right.work.steps_of

    def serve(self, openings: Iterable[Opening], held_at: dict[int, int], of_parts: dict[int, Side]) -> None:
        """In order, slots held on purpose after all that are not."""
        then: list[tuple[Opening, Fitting | None]] = []
        served, pop, take, fills = self.served, self.standing.pop, self.shelf.take, self.right.fills
        for opening in openings:
            position, usage, number, part, side = opening
            fitting = pop((position.id, usage.id, number), None)
            if fitting is not None and fills(fitting, position, part, side):
                served.append(self._filled(opening, fitting, len(served)))
            elif position.id in held_at or of_parts.get(part.id) is side:
                then.append((opening, fitting))
            else:
                taken = take(part.id, side, usage.second_will_do)
                served.append(_open(opening, fitting, len(served), taken))
        for opening, fitting in then:
            _, usage, _, part, side = opening
            taken = take(part.id, side, usage.second_will_do)
            served.append(_open(opening, fitting, len(served), taken, taken.holds is TO_GET))

    def resting(self, openings: Iterable[Opening]) -> Iterator[Slot]:
        """Slots that claim nothing, as they stand."""
        for opening in openings:
            position, usage, number, part, side = opening
            fitting = self.standing.pop((position.id, usage.id, number), None)
            if fitting is not None and self.right.fills(fitting, position, part, side):
                yield self._filled(opening, fitting, 0)
            else:
                yield _open(opening, fitting, 0, NOTHING)

    def _filled(self, opening: Opening, fitting: Fitting, rank: int) -> Slot:
        position, usage, number, part, side = opening
        has_open = part.id in self.with_steps and self.right.has_open_steps(fitting, part)
        return Slot(
            position.id, usage.id, number, part.id, side, FILLED, rank, fitting.lot_id, fitting.id,
            None, None, False, has_open,
        )  # fmt: skip


def _open(opening: Opening, fitting: Fitting | None, rank: int, taken: Taken, held: bool = False) -> Slot:
    position, usage, number, part, side = opening
    stands = fitting.id if fitting is not None else None
    return Slot(
        position.id, usage.id, number, part.id, side, taken.holds, rank, taken.piece, stands,
        taken.line, stands, held, taken.open_steps,
    )  # fmt: skip
