"""Put a piece into a slot, take one out, put a stand-in there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.facts.naming import lot_name, part_name, position_name
from buildlog.proposals.places import PiecesNamed, SlotPlace, read_place
from buildlog.proposals.slots import BACK, SCRAP, FitPiece, PutStandIn, TakeOut
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import Side

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from buildlog.screens.base import LiveScreen
    from buildlog.status.slot import Slot
    from buildlog.status.status import Status

TYPED = "typed"
NO_PIECE = "No piece lies ready for a slot here: print one, or count what lies there on Boxes ({go_boxes})."
NOTHING_STANDS = "Nothing stands in a slot here: {fit_piece} puts a piece in."
NO_SLOT = "No slot here is free: {edit_here} adds a usage, {take_out} takes a piece out."


async def fit_piece(screen: LiveScreen, position_ids: Iterable[int], part_id: int | None = None) -> None:
    """One of the slots that a finished piece lies ready for; what stands in it is asked for."""
    status = screen.status
    if status is None:
        return
    slots = [
        slot
        for slot in _slots(status, position_ids)
        if slot.holds.value == "allotted" and part_id in (None, slot.part)
    ]
    choices = [Choice(slot, slot_name(status, slot), _told_of_ready(status, slot)) for slot in slots]
    slot = await screen.choose("Put in which piece?", choices, empty=NO_PIECE)
    if slot is None:
        return
    old = await _old(screen, status, slot) if slot.stood_in is not None else ""
    if old is not None:
        piece = PiecesNamed(lot_id=slot.piece) if slot.piece is not None else None
        await screen.wish(FitPiece(slot=slot_place(status, slot), piece=piece, old=old or None))


async def _old(screen: LiveScreen, status: Status, slot: Slot) -> str | None:
    title = f"{standing(status, slot.stood_in)} stands there: what becomes of it?"
    return await screen.pick(title, [Choice(BACK, BACK), Choice(SCRAP, SCRAP)])


async def take_out(screen: LiveScreen, position_ids: Iterable[int], fitting_id: int | None = None) -> None:
    """One of the pieces that stand there; what stands in, or should not be there, comes first."""
    status = screen.status
    if status is None:
        return
    places = list(position_ids)
    slots = sorted(_slots(status, places), key=lambda slot: slot.stood_in is None)
    choices = [
        Choice(fitting, standing(status, fitting), slot_name(status, slot), _tone(slot))
        for slot in slots
        if (fitting := slot.stood_in or slot.fitting) is not None and fitting_id in (None, fitting)
    ]
    choices += [
        Choice(fitting, standing(status, fitting), "its slot is no more", Tone.CAUTION)
        for fitting in _slotless(status, places)
        if fitting_id in (None, fitting)
    ]
    chosen = await screen.choose("Take out what?", choices, empty=NOTHING_STANDS)
    if chosen is None:
        return
    place = next((slot_place(status, slot) for slot in slots if chosen in (slot.stood_in, slot.fitting)), None)
    lot_id = next(fitting.lot_id for fitting in status.snapshot.fittings if fitting.id == chosen)
    values = {"slot": place} if place is not None else {"piece": PiecesNamed(lot_id=lot_id)}
    title = f"{standing(status, chosen)} comes out: what becomes of it?"
    becomes = await screen.pick(title, [Choice(BACK, BACK), Choice(SCRAP, SCRAP), Choice(TYPED, "say why, or when")])
    if becomes == TYPED:
        only = ("becomes", "box", "why", "keep_steps")
        await screen.ask(TakeOut, f"{standing(status, chosen)} comes out", values=values, only=only)
    elif becomes is not None:
        await screen.wish(TakeOut(**values, becomes=becomes))


async def put_stand_in(screen: LiveScreen, position_ids: Iterable[int]) -> None:
    """Something temporary in a slot that is not filled: a piece, or told in words."""
    status = screen.status
    if status is None:
        return
    slots = [slot for slot in _slots(status, position_ids) if slot.holds.value != "filled" and slot.stood_in is None]
    choices = [Choice(slot, slot_name(status, slot), slot.holds.value) for slot in slots]
    slot = await screen.choose("A stand-in for what?", choices, empty=NO_SLOT)
    if slot is not None:
        values = {"slot": slot_place(status, slot)}
        title = f"What stands in for {slot_name(status, slot)}?"
        await screen.ask(PutStandIn, title, values=values, only=("words", "piece"))


def slot_place(status: Status, slot: Slot) -> SlotPlace:
    """The slot as it is typed: ``TOE R.2 / FL07 3``."""
    place = read_place(position_name(status.snapshot, slot.position))
    side = slot.side if slot.side is not Side.NONE else None
    return SlotPlace(place, status.snapshot.part[slot.part].code, side, slot.number)


def slot_name(status: Status, slot: Slot) -> str:
    """``FL07 R 3 in TOE R.2``; the number where there are several."""
    alike = [s for s in status.needs.by_position.get(slot.position, ()) if (s.part, s.side) == (slot.part, slot.side)]
    number = f" {slot.number}" if len(alike) > 1 else ""
    name = part_name(status.snapshot, slot.part, slot.side)
    return f"{name}{number} in {position_name(status.snapshot, slot.position)}"


def standing(status: Status, fitting_id: int | None) -> str:
    """What stands in a slot, by its mark or in words."""
    fitting = next(f for f in status.snapshot.fittings if f.id == fitting_id)
    lot = next((lot for lot in status.snapshot.lots if lot.id == fitting.lot_id), None)
    return lot_name(status.snapshot, lot) if lot is not None else fitting.what or "the bought part"


def _told_of_ready(status: Status, slot: Slot) -> str:
    lot = next((lot for lot in status.snapshot.lots if lot.id == slot.piece), None)
    told = lot_name(status.snapshot, lot) if lot is not None else "bought"
    if slot.open_steps:
        told += ", steps on it are open"
    return f"{told}, in place of {standing(status, slot.stood_in)}" if slot.stood_in is not None else told


def _slots(status: Status, position_ids: Iterable[int]) -> Iterator[Slot]:
    for position_id in position_ids:
        yield from status.needs.by_position.get(position_id, ())


def _slotless(status: Status, position_ids: list[int]) -> list[int]:
    """Fittings there whose slot is no more."""
    gone = set(status.needs.take_out)
    return [f.id for f in status.snapshot.fittings if f.id in gone and f.position_id in position_ids]


def _tone(slot: Slot) -> Tone:
    return Tone.STAND_IN if slot.stood_in is not None else Tone.FAINT
