"""What usually comes on top of the hours left: redesign, replaced parts, spares that nobody planned."""

from buildlog.facts.frozen import frozen
from buildlog.facts.pieces import Lot
from buildlog.facts.snapshot import Snapshot
from buildlog.status.needs import Needs
from buildlog.status.piece_hours import PieceHours
from buildlog.status.slot import Holds
from buildlog.terms import LotOrigin, Moment, Side

LEAST_PRINTS = 5


@frozen
class OnTop:
    """Hours of good prints for parts ÷ hours of their pieces now fitted or allotted, learned from so many ``prints``;
    ``usual`` while those are fewer than five.
    """

    factor: float
    prints: int
    usual: bool


def usually_on_top(
    snapshot: Snapshot, needs: Needs, pieces: dict[tuple[int, Side], PieceHours], now: Moment
) -> OnTop:
    """In today's minutes: a piece of an older revision counts as one of the current one, and a part that nothing asks
    for any more counts with its revision's own figure. Pieces split off are counted where they were printed; those
    that were only counted are left out, as nobody knows how many prints they took.
    """
    usual = snapshot.reference.usual["redesign_factor"].value
    from_prints = {lot.id for lot in snapshot.lots if _first(snapshot, lot).origin is LotOrigin.PRINT}
    placed = sum(
        pieces[slot.part, slot.side].estimated_minutes
        for slot in needs.slots
        if slot.piece in from_prints
        and slot.holds in (Holds.FILLED, Holds.ALLOTTED)
        and (slot.part, slot.side) in pieces
    )
    lines = {line.id: line.job_id for line in snapshot.job_lines}
    printed, prints = 0.0, set()
    for lot in snapshot.lots:
        if lot.origin is LotOrigin.PRINT and lot.made_at <= now:
            piece = pieces.get((lot.part_id, lot.side))
            own = snapshot.revision[lot.revision_id].print_minutes or 0
            printed += lot.quantity * (piece.estimated_minutes if piece else own)
            prints.add(lines[lot.job_line_id] if lot.job_line_id is not None else -lot.id)
    if len(prints) < LEAST_PRINTS or placed <= 0:
        return OnTop(usual, len(prints), True)
    return OnTop(max(1.0, printed / placed), len(prints), False)


def _first(snapshot: Snapshot, lot: Lot) -> Lot:
    """The lot that it was split off from, at whatever remove; else itself."""
    while lot.parent_id is not None:
        lot = snapshot.lot[lot.parent_id]
    return lot
