"""Every slot that the usages open, in the order in which slots are served."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import zip_longest

from buildlog.facts.slot_numbers import slot_sides
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Part, Position, Usage
from buildlog.status.needs_order import Group
from buildlog.terms import Moment, Side, SideRule

Opening = tuple[Position, Usage, int, Part, Side]
"""A slot not looked into yet: position, usage, number, part, and the side of the piece it takes (a plain tuple, for
there are many and each is gone at once)."""

Place = tuple[int, int, Side]
"""Which of the positions, number, and the side of the piece."""


class Openings:
    def __init__(self, snapshot: Snapshot, now: Moment) -> None:
        self._parts = snapshot.part
        self._usages_in: defaultdict[int, list[Usage]] = defaultdict(list)
        for usage in snapshot.usages:
            if usage.since_at <= now and (usage.ended_at is None or usage.ended_at > now):
                self._usages_in[usage.assembly_id].append(usage)
        self._known: dict[tuple[SideRule, int, bool, tuple[Side, ...]], tuple[Place, ...]] = {}

    def of(self, groups: Iterable[Group]) -> Iterator[Opening]:
        """Of each group usage by usage, number by number, sides last."""
        for group in groups:
            positions = group.positions
            sides = tuple([position.side for position in positions])
            for usage in self._usages_in.get(group.assembly.id, ()):
                part = self._parts[usage.part_id]
                for index, number, side in self._places(usage, part, sides):
                    yield positions[index], usage, number, part, side

    def _places(self, usage: Usage, part: Part, sides: tuple[Side, ...]) -> tuple[Place, ...]:
        """Of positions on these sides."""
        asked = (usage.side_rule, usage.quantity, part.handed, sides)
        places = self._known.get(asked)
        if places is None:
            taken = [slot_sides(usage.side_rule, usage.quantity, side, part.handed) for side in sides]
            places = self._known[asked] = tuple(
                (index, number, side)
                for number, each in enumerate(zip_longest(*taken), 1)
                for index, side in enumerate(each)
                if side is not None
            )
        return places

    def spares_wanted(self, groups: Iterable[Group]) -> dict[tuple[int, Side], int]:
        """By part and side: the wanted number of each usage, once for each side that it takes."""
        keys = {
            (usage.id, usage.part_id, side): usage.spares_wanted
            for group in groups
            for usage in self._usages_in.get(group.assembly.id, ())
            if usage.spares_wanted
            for _, _, side in self._places(
                usage, self._parts[usage.part_id], tuple([position.side for position in group.positions])
            )
        }
        wanted: defaultdict[tuple[int, Side], int] = defaultdict(int)
        for (_, part_id, side), pieces in keys.items():
            wanted[part_id, side] += pieces
        return wanted
