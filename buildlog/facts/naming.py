"""How things are named to a person, as they may be typed again: ``TOE R.2``, ``FL07 L``, ``FL07R-C``."""

from buildlog.facts.pieces import Lot
from buildlog.facts.snapshot import Snapshot
from buildlog.terms import Side


def position_name(snapshot: Snapshot, position_id: int) -> str:
    """The assembly, the side, and the ordinals on the way down that count."""
    position = snapshot.position[position_id]
    ordinals: list[str] = []
    step = position
    while True:
        if snapshot.assembly[step.assembly_id].count > 1:
            ordinals.insert(0, str(step.ordinal))
        if step.parent_id is None:
            break
        step = snapshot.position[step.parent_id]
    side = "" if position.side is Side.NONE else position.side.value
    numbers = ".".join(ordinals)
    end = f"{side}.{numbers}" if side and numbers else side or numbers
    return f"{snapshot.assembly[position.assembly_id].code} {end}".strip()


def part_name(snapshot: Snapshot, part_id: int, side: Side = Side.NONE) -> str:
    code = snapshot.part[part_id].code
    return code if side is Side.NONE else f"{code} {side}"


def lot_name(snapshot: Snapshot, lot: Lot) -> str:
    """Its mark, else part and side with the number of the lot."""
    return lot.mark or f"{part_name(snapshot, lot.part_id, lot.side)} #{lot.id}"
