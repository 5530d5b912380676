"""Slots of usages that have ended: what was asked for then."""

from collections import Counter
from typing import NamedTuple

from buildlog.facts.slot_numbers import slot_sides
from buildlog.facts.snapshot import Snapshot
from buildlog.terms import Moment, Side


class EndedSlots(NamedTuple):
    """So many slots of (part, side) were asked for from ``since_at`` to ``ended_at``."""

    part_id: int
    side: Side
    slots: int
    since_at: Moment
    ended_at: Moment


def ended_slots(snapshot: Snapshot, now: Moment) -> tuple[EndedSlots, ...]:
    """By usage and side, counted over the positions that there are today (approximation: the tree keeps no dates)."""
    found = []
    for usage in snapshot.usages:
        if usage.ended_at is None or usage.ended_at > now:
            continue
        handed = snapshot.part[usage.part_id].handed
        counts = Counter(
            side
            for position in snapshot.positions_of.get(usage.assembly_id, ())
            for side in slot_sides(usage.side_rule, usage.quantity, position.side, handed)
        )
        for side, slots in counts.items():
            found.append(EndedSlots(usage.part_id, side, slots, usage.since_at, usage.ended_at))
    return tuple(found)
