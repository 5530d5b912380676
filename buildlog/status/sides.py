"""Whether both sides are in step: same parts, same revision, same scale."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import zip_longest
from typing import NamedTuple

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Position
from buildlog.status.filling import Filling
from buildlog.status.needs import Needs
from buildlog.status.slot import ALLOTTED, FILLED, Slot
from buildlog.terms import Side


@frozen
class PairSides:
    """The left and right position of a paired assembly under ``above_position_id``; for the handed parts of a
    position without a side all three are that position.

    ``differences`` says each in plain words; a pair with a ``held_side`` is never out of step.
    """

    assembly_id: int
    above_position_id: int
    left_position_id: int
    right_position_id: int
    differences: tuple[str, ...]
    held_side: Side | None

    @property
    def in_step(self) -> bool:
        return not self.differences or self.held_side is not None


class HandedSides(NamedTuple):
    """A handed part over its whole build: slots needed and usable, left and right."""

    part_id: int
    left_needed: int
    left_usable: int
    right_needed: int
    right_usable: int
    held_side: Side | None

    @property
    def in_step(self) -> bool:
        """As many pieces are there of one side as of the other."""
        return self.left_usable == self.right_usable or self.held_side is not None


@frozen
class Sides:
    pairs: tuple[PairSides, ...]
    parts: tuple[HandedSides, ...]


def compare_sides(snapshot: Snapshot, needs: Needs) -> Sides:
    """Every paired assembly and handed part of the open builds."""
    compared = _Compared(snapshot, needs)
    pairs = [pair for assembly in snapshot.assemblies if assembly.paired for pair in compared.pairs_of(assembly.id)]
    handed = {part.id for part in snapshot.parts if part.handed}
    mixed: defaultdict[int, list[Slot]] = defaultdict(list)
    for position_id, slots in needs.by_position.items():
        if snapshot.position[position_id].side is Side.NONE and (own := [s for s in slots if s.part in handed]):
            mixed[position_id] = own
    pairs += [compared.mixed(snapshot.position[position_id], slots) for position_id, slots in mixed.items()]
    parts = []
    side_left, side_right = Side.LEFT, Side.RIGHT
    for part_id in handed:
        left, right = needs.by_part.get((part_id, side_left)), needs.by_part.get((part_id, side_right))
        if left and right:
            held = needs.held_parts.get(part_id)
            parts.append(HandedSides(part_id, left.needed, left.usable, right.needed, right.usable, held))
    return Sides(tuple(pairs), tuple(parts))


_THERE = (FILLED, ALLOTTED)


class _Compared:
    def __init__(self, snapshot: Snapshot, needs: Needs) -> None:
        self.snapshot = snapshot
        self.needs = needs
        self.filling = Filling(snapshot)
        self.below: defaultdict[int | None, list[Position]] = defaultdict(list)
        for position in snapshot.positions:
            if position.retired_at is None:
                self.below[position.parent_id].append(position)

    def pairs_of(self, assembly_id: int) -> Iterator[PairSides]:
        """Left and right positions under the same position with the same ordinal."""
        by_place: dict[tuple[int | None, int], dict[Side, Position]] = {}
        for position in self.snapshot.positions_of.get(assembly_id, ()):
            by_place.setdefault((position.parent_id, position.ordinal), {})[position.side] = position
        for (above, _), sides in by_place.items():
            left, right = sides.get(Side.LEFT), sides.get(Side.RIGHT)
            if left is not None and right is not None and above is not None:
                held = next((p.side for p in (left, right) if p.id in self.needs.held_positions), None)
                yield PairSides(assembly_id, above, left.id, right.id, tuple(self._differences(left, right)), held)

    def _differences(self, left: Position, right: Position) -> Iterator[str]:
        of_right = {(slot.usage, slot.number): slot for slot in self._with_a_piece(right)}
        for slot in self._with_a_piece(left) if of_right else ():
            other = of_right.get((slot.usage, slot.number))
            if other is not None and (said := self._differ(slot, other)):
                yield said
        rights = {(p.assembly_id, p.ordinal): p for p in self.below[right.id]} if right.id in self.below else {}
        for sub in self.below.get(left.id, ()):
            twin = rights.get((sub.assembly_id, sub.ordinal))
            if twin is not None:
                yield from self._differences(sub, twin)

    def _with_a_piece(self, position: Position) -> list[Slot]:
        """No other slot can be filled."""
        return [slot for slot in self.needs.by_position.get(position.id, ()) if slot.holds in _THERE]

    def _differ(self, left: Slot, right: Slot) -> str:
        """How two filled slots differ; empty where alike, where one is not filled, or where its part is held."""
        if self.filling.are_alike(left, right) or self.needs.held_parts.get(left.part):
            return ""
        fills_left, fills_right = self.filling.fills(left), self.filling.fills(right)
        if fills_left is None or fills_right is None or fills_left == fills_right:
            return ""
        code = self.snapshot.part[left.part].code
        told_left = self.filling.told(fills_left, left.part)
        return f"{code} {left.number}: left {told_left}, right {self.filling.told(fills_right, right.part)}"

    def mixed(self, position: Position, slots: list[Slot]) -> PairSides:
        """Handed parts where there is no side: the first left one against the first right one, and so on."""
        of_part: defaultdict[int, dict[Side, list[Slot]]] = defaultdict(lambda: {Side.LEFT: [], Side.RIGHT: []})
        for slot in slots:
            of_part[slot.part][slot.side].append(slot)
        differences = [
            said
            for sides in of_part.values()
            for left, right in zip_longest(sides[Side.LEFT], sides[Side.RIGHT])
            if left and right and (said := self._differ(left, right))
        ]
        return PairSides(position.assembly_id, position.id, position.id, position.id, tuple(differences), None)
