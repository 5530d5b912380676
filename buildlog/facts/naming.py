"""How things are named to a person, as they may be typed again: ``TOE R.2``, ``FL07 L``, ``FL07R-C``."""

from collections.abc import Callable
from typing import Protocol

from buildlog.facts.pieces import Lot
from buildlog.facts.snapshot import Snapshot
from buildlog.terms import Side
from buildlog.wording import place_name


class Placed(Protocol):
    """A position as it is read or as it is written."""

    @property
    def assembly_id(self) -> int: ...
    @property
    def parent_id(self) -> int | None: ...
    @property
    def ordinal(self) -> int: ...


def position_name(snapshot: Snapshot, position_id: int) -> str:
    """The assembly, the side, and the ordinals on the way down that count."""
    position, assemblies = snapshot.position[position_id], snapshot.assembly
    ordinals = counting_ordinals(position, lambda id_: assemblies[id_].count, snapshot.position.__getitem__)
    return place_name(assemblies[position.assembly_id].code, position.side, ordinals)


def counting_ordinals(
    position: Placed, count_of: Callable[[int], int], position_of: Callable[[int], Placed]
) -> tuple[int, ...]:
    """Ordinals of the assemblies on the way down that come more than once (or did: a count may have been lowered)."""
    found: list[int] = []
    step: Placed | None = position
    while step is not None:
        if count_of(step.assembly_id) > 1 or step.ordinal > 1:
            found.insert(0, step.ordinal)
        step = None if step.parent_id is None else position_of(step.parent_id)
    return tuple(found)


def part_name(snapshot: Snapshot, part_id: int, side: Side = Side.NONE) -> str:
    code = snapshot.part[part_id].code
    return code if side is Side.NONE else f"{code} {side}"


def lot_name(snapshot: Snapshot, lot: Lot) -> str:
    """Its mark, else part and side with the number of the lot."""
    return lot.mark or f"{part_name(snapshot, lot.part_id, lot.side)} #{lot.id}"
