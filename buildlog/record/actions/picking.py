"""Finds pieces as a person names them, and picks as many as asked, splitting lots where need be."""

from collections.abc import Callable

from sqlmodel import col

from buildlog.errors import NotFound, Refused
from buildlog.facts.old_revisions import good_for, in_order
from buildlog.methods.piece_account import Pieces
from buildlog.proposals.places import PiecesNamed, Place
from buildlog.record.actions.moments import local
from buildlog.record.actions.piece_accounts import holds, lot_name, root_of
from buildlog.record.actions.places import by_prefix, position_at, position_name, slot_name
from buildlog.record.actions.splitting import split_off
from buildlog.record.tables.pieces import Fitting, Lot
from buildlog.record.tables.tree import Part, Revision
from buildlog.record.writer import Work
from buildlog.terms import OldGoodFor, Origin, Side
from buildlog.wording import few


def lots_named(work: Work, named: PiecesNamed) -> list[Lot]:
    """The lot or marked piece of that name, or all lots of a part and side, oldest first."""
    if named.lot_id is not None:
        lot = work.first(Lot, id=named.lot_id)
        if lot is None:
            raise NotFound("lot", str(named))
        return [lot]
    if named.side is None:
        marked = work.first(Lot, mark=named.code)
        if marked is not None:
            return [marked]
        if work.first(Part, col(Part.code).startswith(named.code, autoescape=True)) is None:
            _refuse_mark(work, named.code)
    part = by_prefix(work, Part, named.code, "part or piece")
    return lots_of_part(work, part, side_of_part(part, named.side))


def _refuse_mark(work: Work, code: str) -> None:
    """No part begins so: perhaps a mark was meant, then name those that are near."""
    near = work.all(Lot, col(Lot.mark).startswith(code.rpartition("-")[0] or code, autoescape=True))
    raise NotFound("part or piece", code, tuple(lot.mark or "" for lot in near[:6]))


def one_lot(work: Work, named: PiecesNamed) -> Lot:
    """The one lot of that name."""
    lots = lots_named(work, named)
    if not lots:
        raise Refused(f"There are no pieces of {named}: count them first, or finish their print.")
    if len(lots) > 1:
        names = ", ".join(lot_name(work, lot) for lot in lots[:6])
        raise Refused(f"«{named}» may be {names}{' and more' * (len(lots) > 6)}: say which one.")
    return lots[0]


def side_of_part(part: Part, side: str | None) -> Side:
    """The side of pieces of a part: L or R where it is handed, none elsewhere."""
    if part.origin is Origin.BOUGHT:
        raise Refused(f"{part.code} is bought: count, draw and return the bought item instead.")
    asked = Side(side) if side else Side.NONE
    if part.handed and asked is Side.NONE:
        raise Refused(f"{part.code} is handed: say whether L or R.")
    if not part.handed and asked is not Side.NONE:
        raise Refused(f"{part.code} serves both sides: leave the side out.")
    return asked


def lots_of_part(work: Work, part: Part, side: Side) -> list[Lot]:
    lots = work.all(Lot, part_id=part.id, side=side)
    return sorted(lots, key=lambda lot: (root_of(work, lot).made_at, lot.id or 0))


def current_revision(work: Work, part: Part, letter: str | None = None) -> Revision:
    """The revision of that letter, or the one that is current at the moment of the work, at least the first."""
    known = work.all(Revision, part_id=part.id, order_by=Revision.since_at)
    if letter is not None:
        for revision in known:
            if revision.letter == letter:
                return revision
        raise NotFound(f"revision of {part.code}", letter, tuple(revision.letter for revision in known))
    if not known:
        raise Refused(f"{part.code} has no revision yet: change the part and give it one.")
    return [r for r in known if r.since_at <= work.at or r is known[0]][-1]


def counts(work: Work, revision_id: int, side: Side) -> bool:
    """Whether pieces of a revision fill a slot at the moment of the work."""
    part_id = work.get(Revision, revision_id).part_id
    known = work.all(Revision, part_id=part_id)
    by_now = [r for r in known if r.since_at <= work.at or r.id == revision_id]
    return good_for(in_order(by_now), revision_id, side) is OldGoodFor.STILL_GOOD


def lying_there(pieces: Pieces) -> int:
    return pieces.box


def pick(
    work: Work,
    named: PiecesNamed,
    pieces: int | None,
    there: Callable[[Pieces], int] = lying_there,
    word: str = "in the box",
) -> list[tuple[Lot, int]]:
    """(lot, how many of it) for so many pieces; Refused when there are not that many."""
    lots = lots_named(work, named)
    amounts = [(lot, amount) for lot in lots if (amount := there(holds(work, lot)))]
    if pieces is None and len(amounts) > 1:
        raise Refused(f"«{named}» is {len(amounts)} lots: say how many pieces.")
    known = sum(amount for _, amount in amounts)
    wanted = known if pieces is None else pieces
    if wanted > known or not known:
        told = f"Of {named} {known} {'is' if known == 1 else 'are'} {word} at {local(work, work.at)}"
        raise Refused(f"{told}, not so many{_else(work, lots)}: name fewer, or count them first.")
    picked = []
    for lot, amount in amounts:
        if taken := min(wanted, amount):
            picked.append((lot, taken))
            wanted -= taken
    return picked


def take(work: Work, named: PiecesNamed, pieces: int | None) -> list[Lot]:
    """Lots that hold just the pieces asked for, out of what lies in the box."""
    return [split_off(work, lot, amount) for lot, amount in pick(work, named, pieces)]


def standing(work: Work, lot: Lot) -> Fitting | None:
    """The slot that a lot stands in at the moment of the work."""
    found = work.all(Fitting, Fitting.from_at <= work.at, lot_id=lot.id)
    return next((f for f in found if f.until_at is None or f.until_at > work.at), None)


def lot_in(work: Work, named: PiecesNamed, place: Place) -> Lot:
    """The one piece of that name that stands in a position at the moment of the work."""
    position = position_at(work, place)
    ids = {lot.id for lot in lots_named(work, named)}
    stood = work.all(Fitting, Fitting.from_at <= work.at, position_id=position.id)
    found = [
        work.get(Lot, f.lot_id) for f in stood if f.lot_id in ids and (f.until_at is None or f.until_at > work.at)
    ]
    where = position_name(work, position.id or 0)
    if not found:
        raise Refused(
            f"No {named} stands in {where} at {local(work, work.at)}: name where it stands, or leave it out."
        )
    if len(found) > 1:
        raise Refused(f"In {where} stand {few([lot_name(work, lot) for lot in found])}: say which one.")
    return found[0]


def _else(work: Work, lots: list[Lot]) -> str:
    """Where a single piece is instead."""
    fitting = standing(work, lots[0]) if len(lots) == 1 else None
    if fitting is None:
        return ""
    slot = slot_name(work, fitting.position_id, fitting.usage_id, fitting.number)
    return f" (it stands in {slot}: take it out there)"
