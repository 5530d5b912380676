"""Lots as accounts: what they hold, dated entries, and the refusal of entries that cannot all be true."""

from buildlog.errors import Refused
from buildlog.methods.piece_account import Entry, Pieces, Standing, least_free, pieces_at, standings
from buildlog.record.actions.moments import local
from buildlog.record.tables.pieces import Lot, LotEntry
from buildlog.record.tables.tree import Part
from buildlog.record.writer import Work
from buildlog.terms import LotEntryKind, Side


def lot_name(work: Work, lot: Lot) -> str:
    """The mark, or ``#12 (FL07 L)``."""
    if lot.mark:
        return lot.mark
    side = f" {lot.side}" if lot.side is not Side.NONE else ""
    return f"#{lot.id} ({work.get(Part, lot.part_id).code}{side})"


def history(work: Work, lot: Lot) -> tuple[Standing, ...]:
    entries = work.all(LotEntry, lot_id=lot.id)
    return standings(lot.quantity, lot.made_at, [Entry(e.at, e.kind, e.pieces) for e in entries])


def holds(work: Work, lot: Lot) -> Pieces:
    """What a lot holds at the moment of the work."""
    return pieces_at(history(work, lot), work.at)


def free_from_now(work: Work, lot: Lot) -> int:
    """How many pieces of a lot are free at the moment of the work and stay so as far as the record goes."""
    return least_free(history(work, lot), work.at) if lot.made_at <= work.at else 0


def enter(
    work: Work,
    lot: Lot,
    kind: LotEntryKind,
    pieces: int,
    at: str | None = None,
    box_id: int | None = None,
    cause: str = "",
) -> LotEntry:
    """Write an entry; ``verify`` the lot when all entries of the action are written."""
    return work.add(
        LotEntry(lot_id=lot.id or 0, at=at or work.at, kind=kind, pieces=pieces, box_id=box_id, cause=cause)
    )


def verify(work: Work, lot: Lot) -> None:
    """Refuse what the entries of a lot cannot all be: more pieces somewhere than there are."""
    name = lot_name(work, lot)
    told = history(work, lot)
    for standing in told:
        if standing.at < lot.made_at:
            raise Refused(
                f"{name} came to be at {local(work, lot.made_at)}, so that nothing happened to it at "
                f"{local(work, standing.at)}: name another lot, or another moment."
            )
        if not standing.pieces.is_possible:
            raise Refused(
                f"{name} does not have that many pieces: «{standing.kind}» at {local(work, standing.at)} would leave "
                f"{_shortage(standing.pieces)}. Count the lot as of that moment, name fewer, or another lot."
            )


def _shortage(pieces: Pieces) -> str:
    amounts = {
        "in the box": pieces.box,
        "fitted": pieces.fitted,
        "lent": pieces.lent,
        "missing": pieces.missing,
        "out of use": pieces.out_of_use,
    }
    return ", ".join(f"{amount} {where}" for where, amount in amounts.items() if amount < 0)


def box_of(work: Work, lot: Lot) -> int | None:
    """The box a lot is kept in at the moment of the work."""
    moves = work.all(LotEntry, LotEntry.at <= work.at, lot_id=lot.id, kind=LotEntryKind.MOVED)
    last = max(moves, key=lambda e: (e.at, e.id or 0), default=None)
    return last.box_id if last else lot.box_id


def root_of(work: Work, lot: Lot) -> Lot:
    """The lot that a lot was split from first; its ``made_at`` is the age of the pieces."""
    while lot.parent_id is not None:
        lot = work.get(Lot, lot.parent_id)
    return lot
