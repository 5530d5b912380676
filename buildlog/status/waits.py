"""Which positions a position waits for."""

from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Position
from buildlog.terms import Side


def wait_matches(snapshot: Snapshot, position: Position, on_assembly_id: int) -> list[Position]:
    """Positions of the assembly waited for: the same side where both have one, and the same ordinal where both hang
    under the same position with the same count; else all of them.
    """
    found = snapshot.positions_of.get(on_assembly_id, [])
    if position.side is not Side.NONE:
        found = [p for p in found if p.side in (position.side, Side.NONE)]
    if snapshot.assembly[position.assembly_id].count == snapshot.assembly[on_assembly_id].count:
        found = [p for p in found if p.parent_id != position.parent_id or p.ordinal == position.ordinal]
    return found
