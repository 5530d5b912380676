"""Receives, counts, draws and returns bought items, each in its own unit; or notes plenty, low, out."""

from buildlog.errors import Refused
from buildlog.proposals.bought import CountBought, DrawBought, ReceiveBought, ReturnBought, SetLevel
from buildlog.record.actions.receiving import close_when_all_came, due_line, due_of, open_order, receive_item
from buildlog.record.tables.stock import BoughtEntry, BoughtItem
from buildlog.record.writer import Work
from buildlog.terms import BoughtAccount, BoughtEntryKind, Level


def receive_bought(wish: ReceiveBought, work: Work) -> str:
    item = work.by_code(BoughtItem, wish.item)
    order = open_order(work, wish.order) if wish.order else None
    line = due_line(work, order, item, wish.amount, "amount") if order else None
    amount = wish.amount or (due_of(work, line) if line else item.pack_quantity)
    receive_item(work, item, amount, line)
    said = f"Received {amount} {item.unit} of {item.code}."
    if order and close_when_all_came(work, order):
        said += f" Order {order.code} is complete."
    return said


def count_bought(wish: CountBought, work: Work) -> str:
    item = _counted(work, wish.item)
    _enter(work, item, BoughtEntryKind.COUNTED, wish.amount)
    return f"Counted {wish.amount} {item.unit} of {item.code}."


def set_level(wish: SetLevel, work: Work) -> str:
    item = work.by_code(BoughtItem, wish.item)
    if item.account is not BoughtAccount.ROUGH:
        raise Refused(f"{item.code} is counted: count it, or change its account to rough first.")
    _enter(work, item, BoughtEntryKind.LEVEL, 0, level=Level(wish.level))
    return f"{item.code}: {wish.level}."


def draw_bought(wish: DrawBought, work: Work) -> str:
    item = _counted(work, wish.item)
    _enter(work, item, BoughtEntryKind.DRAWN, wish.amount, cause=wish.why)
    return f"Drew {wish.amount} {item.unit} of {item.code}."


def return_bought(wish: ReturnBought, work: Work) -> str:
    item = _counted(work, wish.item)
    _enter(work, item, BoughtEntryKind.RETURNED, wish.amount, cause=wish.why)
    return f"Returned {wish.amount} {item.unit} of {item.code}."


def _counted(work: Work, code: str) -> BoughtItem:
    item = work.by_code(BoughtItem, code)
    if item.account is not BoughtAccount.COUNTED:
        raise Refused(f"{item.code} is not counted: say plenty, low or out.")
    return item


def _enter(
    work: Work,
    item: BoughtItem,
    kind: BoughtEntryKind,
    amount: int,
    level: Level | None = None,
    cause: str = "",
) -> None:
    assert item.id is not None
    work.add(BoughtEntry(bought_item_id=item.id, at=work.at, kind=kind, amount=amount, level=level, cause=cause))
