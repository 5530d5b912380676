"""What every slot holds, and what is still to get: the allotment."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from buildlog.facts.pieces import Fitting
from buildlog.facts.slot_numbers import slot_sides
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Part, Position, Usage
from buildlog.status.accounts import Accounts
from buildlog.status.fits import Fits
from buildlog.status.held import held_parts, held_positions
from buildlog.status.needs_order import Group, builds_in_order, groups_of_builds
from buildlog.status.old_pieces import OldPieces, judge_old
from buildlog.status.part_need import PartNeed, count_needs
from buildlog.status.pools import NOTHING, BoughtPool, Pool, Taken, piece_pools
from buildlog.status.slot import Holds, Slot
from buildlog.status.standing import RightPieces, SlotKey, broken_lots, standing_now
from buildlog.status.work import WorkDone
from buildlog.terms import BuildState, Moment, Side

__all__ = ["Needs", "PartNeed", "allot"]


@dataclass(frozen=True, slots=True)
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

    def spare_pieces(self, part_id: int, side: Side) -> int:
        return sum(pieces for _, pieces in self.free_lots.get((part_id, side), ()))


def allot(snapshot: Snapshot, now: Moment, accounts: Accounts, work: WorkDone, fits: Fits) -> Needs:
    """Lay pieces, prints under way and bought stock against slots by the rules of the allotment."""
    old = judge_old(snapshot, now)
    opened = _Opened(snapshot, now, work, old)
    claiming, resting = _groups(snapshot)
    held_at, of_parts = held_positions(snapshot, fits), held_parts(snapshot)
    first: list[Slot] = []
    then: list[Slot] = []
    for slot in opened.slots(claiming):
        waits = slot.position in held_at or of_parts.get(slot.part) is slot.side
        (then if waits and slot.holds is not Holds.FILLED else first).append(slot)
    shelf = _Shelf(snapshot, accounts, work, old)
    slots = tuple(shelf.serve(first, then, {usage.id for usage in opened.usages.values() if usage.second_will_do}))
    by_position: defaultdict[int, list[Slot]] = defaultdict(list)
    for slot in slots:
        by_position[slot.position].append(slot)
    for slot in opened.slots(resting):
        by_position[slot.position].append(slot)
    return Needs(
        slots,
        {position_id: tuple(found) for position_id, found in by_position.items()},
        count_needs(slots, opened.spares_wanted(claiming), shelf.spare),
        {key: left for key, pool in shelf.pieces.items() if (left := pool.left())},
        tuple(fitting.id for fitting in opened.standing.values()),
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


class _Opened:
    """Opens slots and says what stands in each; what is left in ``standing`` at the end has no slot."""

    def __init__(self, snapshot: Snapshot, now: Moment, work: WorkDone, old: OldPieces) -> None:
        self.standing: dict[SlotKey, Fitting] = standing_now(snapshot, now)
        self.right = RightPieces({lot.id: lot for lot in snapshot.lots}, old, broken_lots(snapshot, now), now)
        self.parts = snapshot.part
        self.work = work
        self.usages = {
            u.id: u for u in snapshot.usages if u.since_at <= now and (u.ended_at is None or u.ended_at > now)
        }
        self.usages_in: defaultdict[int, list[Usage]] = defaultdict(list)
        for usage in self.usages.values():
            self.usages_in[usage.assembly_id].append(usage)

    def _sides(self, usage: Usage, group: Group) -> list[tuple[Position, tuple[Side, ...]]]:
        handed = self.parts[usage.part_id].handed
        return [(p, slot_sides(usage.side_rule, usage.quantity, p.side, handed)) for p in group.positions]

    def slots(self, groups: Iterable[Group]) -> Iterator[Slot]:
        """Every slot, filled or to get, in order; not ranked yet."""
        pop = self.standing.pop
        for group in groups:
            for usage in self.usages_in.get(group.assembly.id, ()):
                part = self.parts[usage.part_id]
                usage_id, part_id = usage.id, part.id
                sided = self._sides(usage, group)
                for number in range(1, max(len(sides) for _, sides in sided) + 1 if sided else 1):
                    for position, sides in sided:
                        if number > len(sides):
                            continue
                        side = sides[number - 1]
                        fitting = pop((position.id, usage_id, number), None)
                        if fitting is None:
                            yield Slot(position.id, usage_id, number, part_id, side, Holds.TO_GET, 0)
                        else:
                            yield self._holding(fitting, position, usage, number, part, side)

    def _holding(
        self, fitting: Fitting, position: Position, usage: Usage, number: int, part: Part, side: Side
    ) -> Slot:
        if not self.right.fills(fitting, position, part, side):
            return Slot(
                position.id, usage.id, number, part.id, side, Holds.TO_GET, 0, fitting=fitting.id, stood_in=fitting.id
            )
        lot_id = fitting.lot_id
        is_open = bool(
            lot_id is not None
            and not fitting.left_as_is
            and part.id in self.work.pieces.steps_of
            and self.work.pieces.open_steps(lot_id, part.id)
        )
        return Slot(
            position.id, usage.id, number, part.id, side, Holds.FILLED, 0, lot_id, fitting.id, open_steps=is_open
        )

    def spares_wanted(self, groups: Iterable[Group]) -> dict[tuple[int, Side], int]:
        """By part and side: the wanted number of each usage, once for each side that it takes."""
        keys = {
            (usage.id, usage.part_id, side): usage.spares_wanted
            for group in groups
            for usage in self.usages_in.get(group.assembly.id, ())
            if usage.spares_wanted
            for _, sides in self._sides(usage, group)
            for side in sides
        }
        wanted: defaultdict[tuple[int, Side], int] = defaultdict(int)
        for (_, part_id, side), pieces in keys.items():
            wanted[part_id, side] += pieces
        return wanted


class _Shelf:
    """All that can be taken, by part and side, and bought stock by item."""

    def __init__(self, snapshot: Snapshot, accounts: Accounts, work: WorkDone, old: OldPieces) -> None:
        self.pieces: dict[tuple[int, Side], Pool] = piece_pools(snapshot, accounts, work, old)
        items = {item.id: BoughtPool(accounts.bought.get(item.id)) for item in snapshot.bought_items}
        self.bought = {
            part.id: (items[part.bought_item_id], part.bought_quantity or 1)
            for part in snapshot.parts
            if part.bought_item_id is not None
        }

    def serve(self, first: Iterable[Slot], then: Iterable[Slot], second_will_do: set[int]) -> Iterator[Slot]:
        rank = 0
        for slots, held in ((first, False), (then, True)):
            for slot in slots:
                if slot.holds is Holds.FILLED:
                    yield slot._replace(rank=rank)
                else:
                    taken = self._take(slot.part, slot.side, slot.usage in second_will_do)
                    yield Slot(
                        *slot[:5], taken.holds, rank, taken.piece, slot.fitting, taken.line, slot.stood_in,
                        held and taken.holds is Holds.TO_GET, taken.open_steps,
                    )  # fmt: skip
                rank += 1

    def _take(self, part_id: int, side: Side, second_will_do: bool) -> Taken:
        bought = self.bought.get(part_id)
        if bought is not None:
            item, quantity = bought
            return item.take(quantity)
        pool = self.pieces.get((part_id, side))
        return NOTHING if pool is None else pool.take(second_will_do)

    def spare(self, part_id: int, side: Side, wanted: int) -> int:
        """How many of the spares wanted are there or under way, when no slot takes any more."""
        if part_id in self.bought:
            return sum(self._take(part_id, side, False).holds is not Holds.TO_GET for _ in range(wanted))
        pool = self.pieces.get((part_id, side))
        if pool is None:
            return 0
        return min(wanted, sum(lot[1] for lots in (pool.pieces, pool.lines) for lot in lots))
