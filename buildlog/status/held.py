"""What is held on purpose: the other side, as long as the lead side is not proven."""

from buildlog.facts.snapshot import Snapshot
from buildlog.status.fits import Fits
from buildlog.terms import Side, Stage


def held_positions(snapshot: Snapshot, fits: Fits) -> dict[int, int]:
    """By position on a held side, and everything below it: the assembly whose lead side it waits for."""
    if not fits.held_assembly_sides:
        return {}
    held: dict[int, int] = {}
    children: dict[int | None, list[int]] = {}
    for position in snapshot.positions:
        if position.retired_at is None:
            children.setdefault(position.parent_id, []).append(position.id)
    for assembly_id, side in fits.held_assembly_sides.items():
        waiting = [p.id for p in snapshot.positions_of.get(assembly_id, ()) if p.side is side]
        while waiting:
            position_id = waiting.pop()
            held.setdefault(position_id, assembly_id)
            waiting += children.get(position_id, ())
    return held


def held_parts(snapshot: Snapshot) -> dict[int, Side]:
    """By handed part with a lead side that is not proven: the side that waits."""
    return {
        part.id: part.lead_side.other
        for part in snapshot.parts
        if part.lead_side is not None and part.stage is not Stage.PROVEN
    }
