"""Splits lots and marks single pieces."""

from buildlog.errors import Refused
from buildlog.record.actions.making import next_mark
from buildlog.record.actions.moments import local
from buildlog.record.actions.piece_accounts import box_of, enter, free_from_now, holds, lot_name
from buildlog.record.tables.pieces import Lot
from buildlog.record.tables.tree import Part
from buildlog.record.writer import Work
from buildlog.terms import LotEntryKind, LotOrigin


def split_off(work: Work, lot: Lot, pieces: int) -> Lot:
    """A lot of that many pieces out of what lies in the box of a lot; the lot itself when those are all it has."""
    held = holds(work, lot)
    if pieces == held.box and held.box == held.box + held.fitted + held.lent + held.missing:
        return lot
    if pieces > held.box:
        raise Refused(
            f"Of {lot_name(work, lot)} {held.box} lie there at {local(work, work.at)}, not {pieces}: "
            "count it first, or name fewer."
        )
    return _split(work, lot, pieces)


def single_out(work: Work, lot: Lot) -> Lot:
    """A marked lot of one out of what is free of a lot."""
    if lot.quantity > 1:
        if not free_from_now(work, lot):
            raise Refused(
                f"No piece of {lot_name(work, lot)} is free from {local(work, work.at)} on: name another lot."
            )
        lot = _split(work, lot, 1)
    if lot.mark is None:
        work.change(lot, mark=next_mark(work, work.get(Part, lot.part_id), lot.side))
    return lot


def _split(work: Work, lot: Lot, pieces: int) -> Lot:
    enter(work, lot, LotEntryKind.SPLIT_OFF, pieces)
    return work.add(
        Lot(
            part_id=lot.part_id,
            revision_id=lot.revision_id,
            side=lot.side,
            quantity=pieces,
            origin=LotOrigin.SPLIT,
            grade=lot.grade,
            made_at=work.at,
            parent_id=lot.id,
            box_id=box_of(work, lot),
        )
    )
