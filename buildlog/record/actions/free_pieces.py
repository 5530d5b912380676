"""Which piece goes into a slot: the named one, or the first free one."""

from buildlog.errors import Refused
from buildlog.proposals.places import PiecesNamed
from buildlog.record.actions.moments import local
from buildlog.record.actions.picking import counts, current_revision, lots_named, lots_of_part, standing
from buildlog.record.actions.piece_accounts import free_from_now, holds, lot_name
from buildlog.record.actions.places import SlotKey
from buildlog.record.tables.pieces import Lot
from buildlog.record.tables.tree import Usage
from buildlog.record.writer import Work
from buildlog.terms import Grade


def first_free(work: Work, slot: SlotKey) -> Lot:
    """Current revision first, then oldest; a second only where it will do, and there first."""
    current = current_revision(work, slot.part)
    free = [
        lot
        for lot in lots_of_part(work, slot.part, slot.side)
        if _grade_will_do(lot, slot.usage) and free_from_now(work, lot) and counts(work, lot.revision_id, slot.side)
    ]
    if not free:
        side = f" {slot.side}" if slot.part.handed else ""
        raise Refused(
            f"No piece of {slot.part.code}{side} is free from {local(work, work.at)} on: count what "
            "lies there, finish its print, or put a stand-in."
        )
    return min(free, key=lambda lot: (lot.grade is not Grade.SECOND, lot.revision_id != current.id))


def _grade_will_do(lot: Lot, usage: Usage) -> bool:
    return lot.grade is Grade.GOOD or (lot.grade is Grade.SECOND and usage.second_will_do)


def named_piece(work: Work, named: PiecesNamed) -> Lot:
    """The lot named, or the first lot of a part and side that has a free piece; Refused when none is free."""
    lots = lots_named(work, named)
    for lot in lots:
        if free_from_now(work, lot):
            return lot
    if len(lots) != 1:
        raise Refused(f"No piece of {named} is free from {local(work, work.at)} on: count what lies there.")
    lot, held = lots[0], holds(work, lots[0])
    if held.free or standing(work, lot) is not None:
        return lot  # the slot where it stands, or will stand later, is named when the spans are compared
    if held.out_of_use:
        raise Refused(
            f"{lot_name(work, lot)} is out of use at {local(work, work.at)}: repair it first, or name another piece."
        )
    state = next((word for word in ("lent", "missing", "scrapped") if getattr(held, word)), "not there")
    raise Refused(f"{lot_name(work, lot)} is {state} at {local(work, work.at)}: name another piece.")
