"""Which slots a fit test touches in one position, and what stands in them."""

from collections import defaultdict
from functools import cached_property
from typing import NamedTuple

from buildlog.facts.bench import FitTest, FitTouch
from buildlog.facts.pieces import Fitting
from buildlog.facts.slot_numbers import slot_sides
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.facts.tree import Usage
from buildlog.status.standing import SlotKey, standing_now
from buildlog.status.work import WorkDone
from buildlog.terms import Moment


class Stands(NamedTuple):
    """What a result is compared with. ``reworks`` counts rework ticks on the piece and in its position."""

    lot_id: int | None
    part_id: int | None
    revision_id: int | None
    reworks: int
    stand_in: bool
    from_at: Moment


class FitSlots:
    """Answers for one snapshot and moment."""

    def __init__(self, snapshot: Snapshot, now: Moment, work: WorkDone) -> None:
        self._snapshot = snapshot
        self._work = work
        self._now = now
        self._lots = snapshot.lot
        self._touched = grouped(snapshot.fit_test_usages, lambda row: row.fit_test_id)
        self._children: defaultdict[int, list[int]] = defaultdict(list)
        for position in snapshot.positions:
            if position.retired_at is None and position.parent_id is not None:
                self._children[position.parent_id].append(position.id)

    @cached_property
    def _standing(self) -> dict[SlotKey, Fitting]:
        return standing_now(self._snapshot, self._now)

    @cached_property
    def _usages(self) -> dict[int, Usage]:
        now = self._now
        return {
            u.id: u for u in self._snapshot.usages if u.since_at <= now and (u.ended_at is None or u.ended_at > now)
        }

    @cached_property
    def _usages_in(self) -> dict[int, list[Usage]]:
        return grouped(self._usages.values(), lambda u: u.assembly_id)

    def changed(self, keys: list[SlotKey], touched_then: list[FitTouch]) -> str:
        """What a result touched that is no slot of the test now, or the other way round; empty where alike."""
        if not touched_then:
            return ""
        then = {(t.position_id, t.usage_id, t.number) for t in touched_then}
        if then.difference(keys):
            return "a slot that it touched is no more"
        if any(self.stands(key) is not None for key in keys if key not in then):
            return "something stands there that it did not touch"
        return ""

    def load_until(self, position_id: int) -> Moment | None:
        """When the last cure at and below a position is over; None when nothing cures."""
        return self._work.load_until_beneath(position_id, self._children)

    def touched(self, test: FitTest, position_id: int) -> list[SlotKey]:
        """Its usages' slots at and below the position; without usages every slot there."""
        by_assembly = self._usages_in
        if named := [row.usage_id for row in self._touched.get(test.id, ())]:
            by_assembly = grouped((self._usages[i] for i in named if i in self._usages), lambda u: u.assembly_id)
        found: list[SlotKey] = []
        waiting = [position_id]
        while waiting:
            place = self._snapshot.position[waiting.pop()]
            waiting += self._children.get(place.id, ())
            for usage in by_assembly.get(place.assembly_id, ()):
                handed = self._snapshot.part[usage.part_id].handed
                sides = slot_sides(usage.side_rule, usage.quantity, place.side, handed)
                found += [(place.id, usage.id, number) for number in range(1, len(sides) + 1)]
        return found

    def stands(self, key: SlotKey) -> Stands | None:
        """What stands in a slot; None when it is empty."""
        fitting = self._standing.get(key)
        return None if fitting is None else self._told(fitting)

    def _told(self, fitting: Fitting) -> Stands:
        reworks = self._work.reworks.get(fitting.position_id, 0)
        lot = self._lots[fitting.lot_id] if fitting.lot_id is not None else None
        if lot is not None:
            reworks += self._work.pieces.reworks.get(lot.id, 0)
            return Stands(lot.id, lot.part_id, lot.revision_id, reworks, fitting.stand_in, fitting.from_at)
        part_id = None if fitting.what else self._usages[fitting.usage_id].part_id
        return Stands(None, part_id, None, reworks, fitting.stand_in or bool(fitting.what), fitting.from_at)
