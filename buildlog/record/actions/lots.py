"""What happens to pieces that stand in no slot."""

from buildlog.errors import Refused
from buildlog.proposals import lots as wishes
from buildlog.proposals.places import PiecesNamed
from buildlog.record.actions.moments import local
from buildlog.record.actions.picking import (
    current_revision,
    lot_in,
    lots_named,
    lots_of_part,
    one_lot,
    pick,
    side_of_part,
    standing,
    take,
)
from buildlog.record.actions.piece_accounts import box_of, enter, holds, lot_name, verify
from buildlog.record.actions.places import by_prefix
from buildlog.record.actions.splitting import split_off
from buildlog.record.tables.pieces import Box, Damage, Lot
from buildlog.record.tables.tree import Part, Revision
from buildlog.record.writer import Work
from buildlog.terms import Grade, LotEntryKind, LotOrigin, Origin, Side


def count_lot(wish: wishes.CountLot, work: Work) -> str:
    lot = one_lot(work, wish.what)
    if standing(work, lot) is not None and lot.quantity == 1:
        raise Refused(f"{lot_name(work, lot)} stands in a slot: a count reads what lies in the box.")
    if lot.mark is not None and wish.pieces > 1:
        raise Refused(f"{lot.mark} is one marked piece: count the part, so that the others become a lot.")
    book = holds(work, lot).box
    enter(work, lot, LotEntryKind.COUNTED, wish.pieces)
    verify(work, lot)
    return f"Counted {wish.pieces} of {lot_name(work, lot)}, {book} were known."


def count_part(wish: wishes.CountPart, work: Work) -> str:
    """Lots are read full from the oldest on, so the newest come short; what is more than they ever held is new."""
    part = by_prefix(work, Part, wish.part, "part")
    side = side_of_part(part, wish.side)
    box = work.by_code(Box, wish.box, "box") if wish.box else None
    letter = current_revision(work, part, wish.revision) if wish.revision else None
    left, counted = wish.pieces, []
    for lot in lots_of_part(work, part, side):
        held = holds(work, lot)
        elsewhere = box is not None and box_of(work, lot) != box.id
        other = (letter is not None and lot.revision_id != letter.id) or lot.grade != wish.grade
        if elsewhere or other or not held.box + held.missing:
            continue
        counted.append((lot, held.box, min(left, held.box)))
        left -= counted[-1][2]
    for lot, book, read in counted:
        again = min(left, holds(work, lot).missing)
        left -= again
        if book or again:
            enter(work, lot, LotEntryKind.COUNTED, read + again)
            verify(work, lot)
    if left:
        revision = letter or current_revision(work, part)
        _new_lot(work, part, side, left, revision, LotOrigin.COUNT, wish.grade, box)
    known = sum(book for _, book, _ in counted)
    name = f"{part.code} {side}" if part.handed else part.code
    return f"Counted {wish.pieces} of {name}, {known} were known{f', {left} are new' if left else ''}."


def scrap_pieces(wish: wishes.ScrapPieces, work: Work) -> str:
    told = _put_away(work, wish.what, wish.pieces, LotEntryKind.SCRAPPED, wish.why)
    why = f": {wish.why.rstrip('.')}" if wish.why else ""
    return f"Scrapped {told}{why}."


def mark_missing(wish: wishes.MarkMissing, work: Work) -> str:
    return f"Missing: {_put_away(work, wish.what, wish.pieces, LotEntryKind.MISSING)}."


def lend_pieces(wish: wishes.LendPieces, work: Work) -> str:
    return f"Lent {_put_away(work, wish.what, wish.pieces, LotEntryKind.LENT, wish.to)}."


def found_pieces(wish: wishes.FoundPieces, work: Work) -> str:
    picked = pick(work, wish.what, wish.pieces, lambda held: held.missing, "missing")
    return f"Found {_bring_back(work, picked, LotEntryKind.FOUND, wish.box)}."


def pieces_back(wish: wishes.PiecesBack, work: Work) -> str:
    picked = pick(work, wish.what, wish.pieces, lambda held: held.lent, "lent")
    return f"Back again: {_bring_back(work, picked, LotEntryKind.RETURNED, wish.box)}."


def move_pieces(wish: wishes.MovePieces, work: Work) -> str:
    box = work.by_code(Box, wish.box, "box")
    moved = take(work, wish.what, wish.pieces)
    for lot in moved:
        enter(work, lot, LotEntryKind.MOVED, holds(work, lot).box, box_id=box.id)
    _verify_all(work, moved)
    return f"Moved {_told(work, [(lot, holds(work, lot).box) for lot in moved])} to {box.code}."


def damage_pieces(wish: wishes.DamagePieces, work: Work) -> str:
    lots = lots_named(work, wish.what) if wish.stands_in is None else [lot_in(work, wish.what, wish.stands_in)]
    fitted = len(lots) == 1 and standing(work, lots[0]) is not None
    broken = lots if fitted else take(work, wish.what, wish.pieces)
    for lot in broken:
        work.add(Damage(lot_id=lot.id or 0, at=work.at, place=wish.where, why=wish.why, out_of_use=wish.out_of_use))
        held = holds(work, lot)
        if wish.out_of_use and held.box + held.fitted > held.out_of_use:
            usable = held.box + held.fitted - held.out_of_use
            enter(work, lot, LotEntryKind.OUT_OF_USE, usable, cause=wish.why)
    _verify_all(work, broken)
    names = ", ".join(lot_name(work, lot) for lot in broken)
    return f"{names} broke at {wish.where}: {'out of use' if wish.out_of_use else 'repaired for now'}."


def repair_pieces(wish: wishes.RepairPieces, work: Work) -> str:
    lots = lots_named(work, wish.what)
    damaged = [lot for lot in lots if _open_damages(work, lot)]
    if not damaged:
        raise Refused(
            f"Nothing of {wish.what} is damaged at {local(work, work.at)}: name another piece, or a later time."
        )
    out = sum(holds(work, lot).out_of_use for lot in damaged)
    repaired: list[tuple[Lot, int]] = []
    if out:
        repaired = pick(work, wish.what, wish.pieces, lambda held: held.out_of_use, "out of use")
        _bring_back(work, repaired, LotEntryKind.REPAIRED, None)
    whole = [lot for lot in damaged if not holds(work, lot).out_of_use]
    for damage in (damage for lot in whole for damage in _open_damages(work, lot)):
        work.change(damage, repaired_at=work.at)
    return f"Repaired {_told(work, repaired) if repaired else ', '.join(lot_name(work, lot) for lot in whole)}."


def make_pieces(wish: wishes.MakePieces, work: Work) -> str:
    part = by_prefix(work, Part, wish.part, "part")
    side = side_of_part(part, wish.side)
    if part.origin is not Origin.MADE:
        raise Refused(f"{part.code} is {part.origin}: record its print, or count what lies there.")
    box = work.by_code(Box, wish.box, "box") if wish.box else None
    revision = current_revision(work, part, wish.revision)
    lot = _new_lot(work, part, side, wish.pieces, revision, LotOrigin.MADE, wish.grade, box)
    return f"Made {wish.pieces} of {lot_name(work, lot)}."


def _new_lot(
    work: Work,
    part: Part,
    side: Side,
    pieces: int,
    revision: Revision,
    origin: LotOrigin,
    grade: str,
    box: Box | None,
) -> Lot:
    return work.add(
        Lot(
            part_id=part.id or 0,
            revision_id=revision.id or 0,
            side=side,
            quantity=pieces,
            origin=origin,
            grade=Grade(grade),
            made_at=work.at,
            box_id=box.id if box else None,
        )
    )


def _put_away(work: Work, named: PiecesNamed, pieces: int | None, kind: LotEntryKind, cause: str = "") -> str:
    """Pieces leave the box; fewer than all become a lot of their own."""
    taken = take(work, named, pieces)
    told = [(lot, holds(work, lot).box) for lot in taken]
    for lot, amount in told:
        enter(work, lot, kind, amount, cause=cause)
    _verify_all(work, taken)
    return _told(work, told)


def _bring_back(work: Work, picked: list[tuple[Lot, int]], kind: LotEntryKind, box: str | None) -> str:
    """Pieces come back; fewer than all become a lot of their own."""
    box_id = work.by_code(Box, box, "box").id if box else None
    told = []
    for lot, amount in picked:
        enter(work, lot, kind, amount)
        back = lot if holds(work, lot).fitted else split_off(work, lot, amount)
        if box_id is not None:
            enter(work, back, LotEntryKind.MOVED, amount, box_id=box_id)
        told.append((back, amount))
        _verify_all(work, [lot, back])
    return _told(work, told)


def _open_damages(work: Work, lot: Lot) -> list[Damage]:
    damages = work.all(Damage, Damage.at <= work.at, lot_id=lot.id)
    return [damage for damage in damages if damage.repaired_at is None]


def _verify_all(work: Work, lots: list[Lot]) -> None:
    for lot in lots:
        verify(work, lot)
        if lot.parent_id is not None:
            verify(work, work.get(Lot, lot.parent_id))


def _told(work: Work, lots: list[tuple[Lot, int]]) -> str:
    return ", ".join(f"{amount} of {lot_name(work, lot)}" for lot, amount in lots)
