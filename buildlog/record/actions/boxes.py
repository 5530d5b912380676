"""Counts a box against the book; empties one into another."""

from sqlmodel import col

from buildlog.errors import BadWish, Refused
from buildlog.facts.default_boxes import default_boxes
from buildlog.proposals.bought import CountBought
from buildlog.proposals.boxes import CountBox, MoveContents
from buildlog.proposals.lots import CountLot
from buildlog.record.actions.bought import count_bought
from buildlog.record.actions.lots import count_lot
from buildlog.record.actions.piece_accounts import box_of, enter, holds, verify
from buildlog.record.tables.pieces import Box, Lot
from buildlog.record.tables.stock import BoughtItem, Spool
from buildlog.record.tables.tree import Assembly, Usage
from buildlog.record.writer import Work
from buildlog.terms import LotEntryKind
from buildlog.wording import count


def count_box(wish: CountBox, work: Work) -> str:
    """Every lot and item that is named is counted, whether the book has it in this box or not."""
    box = work.by_code(Box, wish.box, "box")
    if not wish.counted:
        raise BadWish((("counted", "name what was counted, as #12 x3"),))
    told = [
        count_bought(CountBought(item=one.what, amount=one.amount), work)
        if isinstance(one.what, str)
        else count_lot(CountLot(what=one.what, pieces=one.amount), work)
        for one in wish.counted
    ]
    return f"Counted {box.code}: {' '.join(told)}"


def move_contents(wish: MoveContents, work: Work) -> str:
    box, to = work.by_code(Box, wish.box, "box"), work.by_code(Box, wish.to, "box")
    if box.id == to.id:
        raise BadWish((("to", f"{box.code} is the box that it lies in: name another one"),))
    usual = default_boxes(work.all(Assembly), work.all(Usage, order_by=Usage.id))
    lots = [lot for lot in work.all(Lot, order_by=Lot.id) if _kept_in(work, lot, usual) == box.id]
    lots = [lot for lot in lots if holds(work, lot).box]
    pieces = 0
    for lot in lots:
        held = holds(work, lot).box
        pieces += held
        enter(work, lot, LotEntryKind.MOVED, held, box_id=to.id)
        verify(work, lot)
    spools = work.all(Spool, Spool.box_id == box.id, col(Spool.retired_at).is_(None))
    items = work.all(BoughtItem, BoughtItem.box_id == box.id, col(BoughtItem.retired_at).is_(None))
    for row in (*spools, *items):
        work.change(row, box_id=to.id)
    if not (lots or spools or items):
        raise Refused(f"{box.code} is empty: nothing was moved.")
    told = [count(pieces, "piece"), count(len(spools), "spool"), count(len(items), "bought item")]
    return f"Moved {', '.join(told)} from {box.code} to {to.code}."


def _kept_in(work: Work, lot: Lot, usual: dict[int, int]) -> int | None:
    return box_of(work, lot) or usual.get(lot.part_id)
