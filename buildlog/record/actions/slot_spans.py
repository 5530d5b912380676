"""What stands in slots, from when until when: one thing at a time, late facts too."""

from typing import NamedTuple

from sqlmodel import col

from buildlog.errors import Refused
from buildlog.proposals.slots import SCRAP
from buildlog.record.actions.moments import local, refuse_future
from buildlog.record.actions.piece_accounts import enter, lot_name, verify
from buildlog.record.actions.places import SlotKey, slot_name
from buildlog.record.tables.bench import Step, StepDone
from buildlog.record.tables.pieces import Fitting, Lot, LotEntry
from buildlog.record.tables.stock import BoughtEntry, BoughtItem
from buildlog.record.tables.tree import Part, Usage
from buildlog.record.writer import Work
from buildlog.terms import BoughtAccount, BoughtEntryKind, LotEntryKind, Moment


class Room(NamedTuple):
    """How a new fitting is to find its slot empty."""

    old: str | None = None
    end_old_at: Moment | None = None
    end_at: Moment | None = None
    keep_steps: bool = False


def in_slot(work: Work, slot: SlotKey) -> list[Fitting]:
    """Everything that ever stood in a slot, oldest first."""
    return work.all(
        Fitting, position_id=slot.position.id, usage_id=slot.usage.id, number=slot.number, order_by=Fitting.from_at
    )


def stands_at(fitting: Fitting, at: str) -> bool:
    return fitting.from_at <= at and (fitting.until_at is None or fitting.until_at > at)


def standing_in(work: Work, slot: SlotKey) -> Fitting | None:
    """What stands in a slot at the moment of the work."""
    return next((fitting for fitting in in_slot(work, slot) if stands_at(fitting, work.at)), None)


def is_empty_from_now(work: Work, slot: SlotKey) -> bool:
    return all(f.until_at is not None and f.until_at <= work.at for f in in_slot(work, slot))


def name_of(work: Work, slot: SlotKey) -> str:
    return slot_name(work, slot.position.id or 0, slot.usage.id or 0, slot.number)


def what_stands(work: Work, fitting: Fitting) -> str:
    """The piece, the words, or the bought part."""
    if fitting.lot_id is not None:
        return lot_name(work, work.get(Lot, fitting.lot_id))
    return fitting.what or work.get(Part, work.get(Usage, fitting.usage_id).part_id).code


def place_in(work: Work, slot: SlotKey, lot: Lot | None, what: str, stand_in: bool, room: Room) -> Fitting:
    """Put a thing into a slot at the moment of the work, once there is room for it."""
    name = lot_name(work, lot) if lot else what or slot.part.code
    _make_room(work, slot, name, room)
    if lot is not None:
        _refuse_twice(work, lot, slot, room)
    fitting = work.add(
        Fitting(
            position_id=slot.position.id or 0,
            usage_id=slot.usage.id or 0,
            number=slot.number,
            lot_id=lot.id if lot else None,
            what=what,
            stand_in=stand_in,
            from_at=work.at,
            until_at=room.end_at,
        )
    )
    if lot is not None:
        enter(work, lot, LotEntryKind.FITTED, 1)
        if room.end_at:
            enter(work, lot, LotEntryKind.TAKEN_OUT, 1, at=room.end_at)
        verify(work, lot)
    elif not what:
        _draw(work, fitting, slot.part, room.end_at)
    return fitting


def _make_room(work: Work, slot: SlotKey, new: str, room: Room) -> None:
    place, at = name_of(work, slot), local(work, work.at)
    refuse_future(work, room.end_old_at, room.end_at)
    if room.end_at is not None and room.end_at < work.at:
        raise Refused(
            f"{new} cannot end at {local(work, room.end_at)}, before it is fitted at {at}: name a later end."
        )
    for old in in_slot(work, slot):
        if stands_at(old, work.at):
            _end_old(work, old, place, new, room)
    for later in in_slot(work, slot):
        if later.from_at > work.at and (room.end_at is None or room.end_at > later.from_at):
            then = local(work, later.from_at)
            raise Refused(
                f"{new} from {at} and {what_stands(work, later)} from {then} would both stand in {place}: "
                f"end it at {then}, or earlier (field «end it at»)."
            )


def _end_old(work: Work, old: Fitting, place: str, new: str, room: Room) -> None:
    at, name = local(work, work.at), what_stands(work, old)
    stood = f"{name} stands in {place} from {local(work, old.from_at)}"
    if old.until_at is not None and room.end_old_at is None:
        raise Refused(
            f"{stood} until {local(work, old.until_at)}, and {new} from {at} would stand there too: "
            f"end it at {at}, or earlier (field «that ended at»)."
        )
    end = room.end_old_at or work.at
    if not old.from_at <= end <= work.at:
        raise Refused(f"{stood}: it cannot end at {local(work, end)}, with {new} fitted at {at}: end it by then.")
    if old.until_at is not None:
        end_earlier(work, old, end)
    elif room.old is None:
        raise Refused(f"{stood}: say what becomes of it, back to the box or scrap (field «what stood there»).")
    else:
        take_out_of(work, old, room.old == SCRAP, end, keep_steps=room.keep_steps)


def _refuse_twice(work: Work, lot: Lot, slot: SlotKey, room: Room) -> None:
    """A piece stands in one slot at a time."""
    for other in work.all(Fitting, lot_id=lot.id):
        ends_before = other.until_at is not None and other.until_at <= work.at
        starts_after = room.end_at is not None and room.end_at <= other.from_at
        if ends_before or starts_after:
            continue
        there, at = slot_name(work, other.position_id, other.usage_id, other.number), local(work, work.at)
        since = local(work, other.from_at)
        offer = f"take it out there at {at} or earlier"
        if other.from_at > work.at:
            offer = f"end it at {since}, or earlier (field «end it at»)"
        raise Refused(
            f"{lot_name(work, lot)} would stand in {name_of(work, slot)} from {at} and in {there} from {since}: "
            f"{offer}."
        )


def take_out_of(
    work: Work,
    fitting: Fitting,
    scrap: bool,
    at: str,
    cause: str = "",
    box_id: int | None = None,
    keep_steps: bool = False,
) -> None:
    """End a fitting: the piece goes back to the box or to scrap, a bought one back to stock or nowhere.

    One that ended later on ends earlier, with what became of it then.
    """
    if fitting.until_at is not None:
        end_earlier(work, fitting, at)
        return
    work.change(fitting, until_at=at)
    if fitting.lot_id is not None:
        lot = work.get(Lot, fitting.lot_id)
        enter(work, lot, LotEntryKind.TAKEN_OUT, 1, at=at, cause=cause)
        if scrap:
            enter(work, lot, LotEntryKind.SCRAPPED, 1, at=at, cause=cause)
        elif box_id is not None:
            enter(work, lot, LotEntryKind.MOVED, 1, at=at, box_id=box_id)
        verify(work, lot)
    elif not scrap:
        _return(work, fitting, at)
    if not keep_steps:
        reopen_joints(work, fitting.position_id, at)


def end_earlier(work: Work, fitting: Fitting, end: str) -> None:
    """Correct the end of a fitting, with the entries that were written for it."""
    was = fitting.until_at
    work.change(fitting, until_at=end)
    if fitting.lot_id is not None:
        lot = work.get(Lot, fitting.lot_id)
        kinds = (LotEntryKind.TAKEN_OUT, LotEntryKind.SCRAPPED, LotEntryKind.MOVED)
        for entry in work.all(LotEntry, col(LotEntry.kind).in_(kinds), lot_id=lot.id, at=was):
            work.change(entry, at=end)
        verify(work, lot)
    for back in work.all(BoughtEntry, fitting_id=fitting.id, at=was):
        if back.kind is BoughtEntryKind.RETURNED:
            work.change(back, at=end)


def reopen_joints(work: Work, position_id: int, at: str) -> None:
    """Bonding and assembling steps done in a position by then are open again."""
    done = work.all(StepDone, StepDone.at <= at, position_id=position_id, reopened_at=None)
    for tick in done:
        if work.get(Step, tick.step_id).kind.holds_slots:
            work.change(tick, reopened_at=at)


def _draw(work: Work, fitting: Fitting, part: Part, end_at: str | None) -> None:
    if part.bought_item_id is None:
        raise Refused(f"{part.code} is {part.origin}, not bought: name a piece.")
    item = work.get(BoughtItem, part.bought_item_id)
    if item.account is BoughtAccount.ROUGH:
        return
    work.add(
        BoughtEntry(
            bought_item_id=item.id or 0,
            at=fitting.from_at,
            kind=BoughtEntryKind.DRAWN,
            amount=part.bought_quantity or 1,
            fitting_id=fitting.id,
        )
    )
    if end_at:
        _return(work, fitting, end_at)


def _return(work: Work, fitting: Fitting, at: str) -> None:
    """Give back what fitting it drew."""
    drawn = work.all(BoughtEntry, fitting_id=fitting.id, kind=BoughtEntryKind.DRAWN)
    for entry in drawn:
        work.add(
            BoughtEntry(
                bought_item_id=entry.bought_item_id,
                at=at,
                kind=BoughtEntryKind.RETURNED,
                amount=entry.amount,
                fitting_id=fitting.id,
            )
        )
