"""Where the pieces of each lot are."""

from collections import defaultdict
from collections.abc import Iterable
from enum import StrEnum
from typing import NamedTuple

from buildlog.facts.pieces import Lot, LotEntry
from buildlog.facts.snapshot import Snapshot
from buildlog.methods import piece_account
from buildlog.methods.piece_account import Pieces
from buildlog.terms import LotEntryKind, Moment


class PieceState(StrEnum):
    FREE = "free"
    FITTED = "fitted"
    LENT = "lent"
    MISSING = "missing"
    OUT_OF_USE = "out of use"
    GONE = "gone"


class LotState(NamedTuple):
    """``pieces`` is how many of the lot are in ``state``, the first of free, fitted, lent, out of use, missing that
    any piece is in; ``missing`` how many a count did not find. A lot not made yet, scrapped or split up is gone.
    """

    lot_id: int
    pieces: int
    state: PieceState
    box_id: int | None
    missing: int = 0


_FITTED = PieceState.FITTED
GONE_BY = {
    LotEntryKind.FITTED: PieceState.FITTED,
    LotEntryKind.LENT: PieceState.LENT,
    LotEntryKind.MISSING: PieceState.MISSING,
    LotEntryKind.OUT_OF_USE: PieceState.OUT_OF_USE,
    LotEntryKind.SCRAPPED: PieceState.GONE,
    LotEntryKind.SPLIT_OFF: PieceState.GONE,
}


def settle_lots(snapshot: Snapshot, now: Moment) -> dict[int, LotState]:
    """Every lot at ``now``. Most have no entry, or one that moves all their pieces: those need no replay."""
    entries = entries_by_lot(snapshot, now)
    free, gone = PieceState.FREE, PieceState.GONE
    told = {}
    for lot in snapshot.lots:
        own = entries.get(lot.id)
        if lot.made_at > now:
            told[lot.id] = LotState(lot.id, 0, gone, lot.box_id)
        elif own is None:
            told[lot.id] = LotState(lot.id, lot.quantity, free, lot.box_id)
        else:
            told[lot.id] = _moved_as_one(lot, own) or _replayed(lot, own, now)
    return told


def entries_by_lot(snapshot: Snapshot, now: Moment) -> dict[int, list[LotEntry]]:
    """What has happened to lots by ``now``."""
    entries: defaultdict[int, list[LotEntry]] = defaultdict(list)
    for entry in snapshot.lot_entries:
        if entry.at <= now:
            entries[entry.lot_id].append(entry)
    return entries


def pieces_of(lot: Lot, entries: Iterable[LotEntry], now: Moment) -> Pieces:
    """Where the pieces of a lot are, told from all its entries."""
    told = (piece_account.Entry(entry.at, entry.kind, entry.pieces) for entry in entries)
    return piece_account.pieces_at(piece_account.standings(lot.quantity, lot.made_at, told), now)


def _moved_as_one(lot: Lot, entries: list[LotEntry]) -> LotState | None:
    """Where all pieces of a lot are that one entry took together."""
    first, quantity = entries[0], lot.quantity
    state = GONE_BY.get(first.kind) if len(entries) == 1 and first.pieces == quantity else None
    if state is _FITTED:  # most of them
        return LotState(lot.id, quantity, state, lot.box_id)
    if state is None:
        return None
    gone, missing = state is PieceState.GONE, quantity if state is PieceState.MISSING else 0
    return LotState(lot.id, 0 if gone else quantity, state, lot.box_id, missing)


def _replayed(lot: Lot, entries: list[LotEntry], now: Moment) -> LotState:
    moved = [entry for entry in entries if entry.kind is LotEntryKind.MOVED]
    box_id = max(moved, key=lambda entry: (entry.at, entry.id)).box_id if moved else lot.box_id
    pieces = pieces_of(lot, entries, now)
    counts = (
        (pieces.free, PieceState.FREE),
        (pieces.fitted, PieceState.FITTED),
        (pieces.lent, PieceState.LENT),
        (pieces.out_of_use, PieceState.OUT_OF_USE),
        (pieces.missing, PieceState.MISSING),
    )
    count, state = next(((n, s) for n, s in counts if n > 0), (0, PieceState.GONE))
    return LotState(lot.id, count, state, box_id, max(0, pieces.missing))
