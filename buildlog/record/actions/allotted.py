"""Fits pieces that were allotted when the person looked, if they are still free and their slots still empty."""

from buildlog.errors import Refused
from buildlog.proposals.steps import AllottedPiece
from buildlog.record.actions.piece_accounts import free_from_now, lot_name
from buildlog.record.actions.places import position_name, slots_of
from buildlog.record.actions.slot_spans import Room, is_empty_from_now, name_of, place_in
from buildlog.record.actions.slots import fit_one
from buildlog.record.tables.pieces import Lot
from buildlog.record.tables.tree import Position, Usage
from buildlog.record.writer import Work
from buildlog.terms import Side


def fit_allotted(work: Work, position: Position, allotted: AllottedPiece) -> str:
    """Fit the piece, or draw the bought part, in its slot of a position; returns its name."""
    usage_id, number, lot_id = allotted
    usage = work.get(Usage, usage_id)
    slots = [slot for slot in slots_of(work, position, usage) if slot.number == number]
    if usage.assembly_id != position.assembly_id or not slots:
        name = position_name(work, position.id or 0)
        raise Refused(f"{name} has no such slot any more: look again, then do it.")
    slot = slots[0]
    if not is_empty_from_now(work, slot):
        raise Refused(f"{name_of(work, slot)} holds something by now: look again, then do it.")
    if lot_id is None:
        place_in(work, slot, None, "", False, Room())
        return slot.part.code
    lot = work.get(Lot, lot_id)
    if lot.part_id != slot.part.id or slot.side not in (lot.side, Side.NONE) or not free_from_now(work, lot):
        raise Refused(
            f"{lot_name(work, lot)} is not free for {name_of(work, slot)} any more: look again, then do it."
        )
    return lot_name(work, fit_one(work, slot, lot, Room()))
