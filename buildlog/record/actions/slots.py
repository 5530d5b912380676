"""What happens to slots."""

from buildlog.errors import BadWish, Refused
from buildlog.proposals import slots as wishes
from buildlog.record.actions.free_pieces import first_free, named_piece
from buildlog.record.actions.moments import local
from buildlog.record.actions.picking import one_lot, standing
from buildlog.record.actions.piece_accounts import lot_name, verify
from buildlog.record.actions.places import SlotKey, slot_name, slots_at
from buildlog.record.actions.slot_spans import (
    Room,
    is_empty_from_now,
    name_of,
    place_in,
    standing_in,
    take_out_of,
    what_stands,
)
from buildlog.record.actions.splitting import single_out
from buildlog.record.tables.pieces import Box, Fitting, Lot
from buildlog.record.tables.tree import Part
from buildlog.record.writer import Work
from buildlog.terms import Origin, Side


def fit_piece(wish: wishes.FitPiece, work: Work) -> str:
    slots = slots_at(work, wish.slot)
    part = slots[0].part
    if part.origin is Origin.BOUGHT:
        if wish.piece is not None:
            raise BadWish((("piece", f"{part.code} is bought: leave this empty, it is drawn from its item"),))
        slot = _first_empty(work, slots)
        place_in(work, slot, None, "", False, _room(wish))
        return f"Fitted {part.code} in {name_of(work, slot)}."
    lot = named_piece(work, wish.piece) if wish.piece else None
    if lot is not None:
        slots = _slots_that_take(work, slots, lot)
    slot = _first_empty(work, slots)
    piece = fit_one(work, slot, lot, _room(wish))
    return f"Fitted {lot_name(work, piece)} in {name_of(work, slot)}."


def fit_one(work: Work, slot: SlotKey, lot: Lot | None, room: Room) -> Lot:
    """Fit one piece of a lot, or the first free one, split off and marked; returns it."""
    source = lot or first_free(work, slot)
    piece = single_out(work, source)
    place_in(work, slot, piece, "", False, room)
    if piece is not source:
        verify(work, source)
    return piece


def put_stand_in(wish: wishes.PutStandIn, work: Work) -> str:
    if (wish.piece is None) == (not wish.words):
        raise BadWish((("words", "name a piece, or say in words what stands in, one of both"),))
    slot = _first_empty(work, slots_at(work, wish.slot))
    source = named_piece(work, wish.piece) if wish.piece else None
    piece = single_out(work, source) if source else None
    place_in(work, slot, piece, wish.words, True, _room(wish))
    if source is not None:
        verify(work, source)
    return f"{lot_name(work, piece) if piece else wish.words} stands in in {name_of(work, slot)}."


def take_out(wish: wishes.TakeOut, work: Work) -> str:
    if (wish.slot is None) == (wish.piece is None):
        raise BadWish((("slot", "name the slot, or the piece, one of both"),))
    fitting = _fitting_of(work, wish)
    where = slot_name(work, fitting.position_id, fitting.usage_id, fitting.number)
    if fitting.until_at is not None:
        raise Refused(
            f"{what_stands(work, fitting)} was taken out of {where} at {local(work, fitting.until_at)}: "
            "undo that first, or fit the next piece with «that ended at»."
        )
    box_id = work.by_code(Box, wish.box, "box").id if wish.box else None
    scrap = wish.becomes == wishes.SCRAP
    take_out_of(work, fitting, scrap, work.at, wish.why, box_id, wish.keep_steps)
    return f"Took {what_stands(work, fitting)} out of {where}, {wish.becomes}."


def clear_slot(wish: wishes.ClearSlot, work: Work) -> str:
    slots = slots_at(work, wish.slot)
    held = [(slot, fitting) for slot in slots if (fitting := standing_in(work, slot)) and not fitting.until_at]
    if not held:
        raise Refused(f"Nothing stands in {wish.slot} at {local(work, work.at)}: name another slot or time.")
    for _, fitting in held:
        scrap = wish.becomes == wishes.SCRAP
        take_out_of(work, fitting, scrap, work.at, wish.why, keep_steps=wish.keep_steps)
    return f"Cleared {', '.join(name_of(work, slot) for slot, _ in held)}, {wish.becomes}."


def _room(wish: wishes.FitPiece | wishes.PutStandIn) -> Room:
    return Room(wish.old, wish.end_old_at, wish.end_at, wish.keep_steps)


def _slots_that_take(work: Work, slots: list[SlotKey], lot: Lot) -> list[SlotKey]:
    """Slots for the part and side of a lot."""
    part = slots[0].part
    if lot.part_id != part.id:
        raise Refused(
            f"{lot_name(work, lot)} is {work.get(Part, lot.part_id).code}, the slot takes {part.code}: "
            "put it there as a stand-in, or name another piece."
        )
    taking = [slot for slot in slots if slot.side in (lot.side, Side.NONE)]
    if not taking:
        raise Refused(
            f"{lot_name(work, lot)} is {lot.side}, {name_of(work, slots[0])} takes {slots[0].side}: put it there "
            "as a stand-in, or name another piece."
        )
    return taking


def _first_empty(work: Work, slots: list[SlotKey]) -> SlotKey:
    if len(slots) == 1:
        return slots[0]
    for slot in slots:
        if is_empty_from_now(work, slot):
            return slot
    names = ", ".join(name_of(work, slot) for slot in slots[:6])
    raise Refused(f"All {len(slots)} slots hold something ({names}): say which one by its number.")


def _fitting_of(work: Work, wish: wishes.TakeOut) -> Fitting:
    if wish.slot is not None:
        slots = slots_at(work, wish.slot)
        held = [fitting for slot in slots if (fitting := standing_in(work, slot))]
        if len(held) > 1:
            names = ", ".join(what_stands(work, fitting) for fitting in held[:6])
            raise Refused(f"In {wish.slot} stand {names}: say which slot by its number.")
        if not held:
            raise Refused(f"Nothing stands in {wish.slot} at {local(work, work.at)}: name another slot or time.")
        return held[0]
    assert wish.piece is not None
    lot = one_lot(work, wish.piece)
    fitting = standing(work, lot)
    if fitting is None:
        raise Refused(
            f"{lot_name(work, lot)} stands in no slot at {local(work, work.at)}: name a piece that does, or a slot."
        )
    return fitting
