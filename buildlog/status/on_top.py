"""What usually comes on top of the hours left: redesign, replaced parts, spares that nobody planned."""

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.status.needs import Needs
from buildlog.status.piece_hours import PieceHours
from buildlog.status.slot import Holds
from buildlog.terms import LotOrigin, Moment, Side

LEAST_PLACED_PIECES = 5


@frozen
class OnTop:
    """Hours of good prints for parts ÷ hours of pieces now fitted or allotted; ``usual`` while own facts are few."""

    factor: float
    usual: bool


def usually_on_top(
    snapshot: Snapshot, needs: Needs, pieces: dict[tuple[int, Side], PieceHours], now: Moment
) -> OnTop:
    """In today's minutes: a piece of an older revision counts as one of the current one, and a part that nothing asks
    for any more counts with its revision's own figure. Pieces split off are counted where they were printed.
    """
    usual = snapshot.reference.usual["redesign_factor"].value
    placed = [
        pieces[slot.part, slot.side].estimated_minutes
        for slot in needs.slots
        if slot.piece is not None
        and slot.holds in (Holds.FILLED, Holds.ALLOTTED)
        and (slot.part, slot.side) in pieces
    ]
    printed = 0.0
    for lot in snapshot.lots:
        if lot.origin is LotOrigin.PRINT and lot.made_at <= now:
            piece = pieces.get((lot.part_id, lot.side))
            own = snapshot.revision[lot.revision_id].print_minutes or 0
            printed += lot.quantity * (piece.estimated_minutes if piece else own)
    if len(placed) < LEAST_PLACED_PIECES or sum(placed) <= 0:
        return OnTop(usual, True)
    return OnTop(max(1.0, printed / sum(placed)), False)
