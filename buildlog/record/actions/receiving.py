"""What comes in: new spools, bought items, and what of an order is still due."""

import re

from buildlog.errors import BadWish, Refused
from buildlog.proposals import forms_shop
from buildlog.record.actions.moments import local
from buildlog.record.actions.storing.by_noun import storing_of
from buildlog.record.tables.stock import BoughtEntry, BoughtItem, Material, Order, OrderLine, Spool
from buildlog.record.writer import Work
from buildlog.terms import BoughtAccount, BoughtEntryKind, Level

LONGEST_CODE = 24


def add_spool(work: Work, form: forms_shop.Spool, line: OrderLine | None) -> Spool:
    """A sealed spool received now, on the line of an order where there is one."""
    spool = storing_of("spool", work).add(form)
    assert isinstance(spool, Spool)
    if line is not None:
        work.change(spool, order_line_id=line.id)
    return spool


def next_codes(work: Work, material: Material, count: int) -> list[str]:
    """The next free codes of a material: ``ABS-BLACK-01``, ``-02`` and so on, after the highest there is."""
    stem = material.code[: LONGEST_CODE - 4]
    known = (re.fullmatch(re.escape(stem) + r"-(\d+)", spool.code) for spool in work.all(Spool))
    highest = max((int(match[1]) for match in known if match), default=0)
    return [f"{stem}-{number:02d}" for number in range(highest + 1, highest + 1 + count)]


def receive_item(work: Work, item: BoughtItem, amount: int, line: OrderLine | None) -> None:
    """An amount of a bought item has come; one that is not counted has plenty now."""
    is_counted = item.account is BoughtAccount.COUNTED
    assert item.id is not None
    work.add(
        BoughtEntry(
            bought_item_id=item.id,
            at=work.at,
            kind=BoughtEntryKind.RECEIVED if is_counted else BoughtEntryKind.LEVEL,
            amount=amount,
            level=None if is_counted else Level.PLENTY,
            order_line_id=line.id if line else None,
        )
    )


def open_order(work: Work, code: str) -> Order:
    """The order of that code, placed by now and not closed."""
    order = work.by_code(Order, code, "order")
    if order.closed_at is not None:
        raise Refused(f"Order {order.code} was closed {local(work, order.closed_at)}: receive this without it.")
    if work.at < order.placed_at:
        raise Refused(f"Order {order.code} was placed {local(work, order.placed_at)}: name a later time.")
    return order


def lines_of(work: Work, order: Order) -> list[OrderLine]:
    return work.all(OrderLine, purchase_id=order.id)


def due_of(work: Work, line: OrderLine) -> int:
    """What of a line has not come yet: packs, or an amount in the item's unit."""
    if line.material_id is not None:
        return line.quantity - len(work.all(Spool, order_line_id=line.id))
    return line.quantity - sum(e.amount for e in work.all(BoughtEntry, order_line_id=line.id))


def due_line(work: Work, order: Order, thing: Material | BoughtItem, amount: int | None, field: str) -> OrderLine:
    """The line of the order on which that much of the thing (None: anything) is still due."""
    is_material = isinstance(thing, Material)
    lines = [
        line
        for line in lines_of(work, order)
        if (line.material_id if is_material else line.bought_item_id) == thing.id
    ]
    for line in lines:
        if due_of(work, line) >= (amount or 1):
            return line
    due = sum(due_of(work, line) for line in lines)
    raise BadWish(
        ((field, f"{due} of {thing.code} are due on order {order.code}: receive the rest without the order"),)
    )


def close_when_all_came(work: Work, order: Order) -> bool:
    """Close the order when nothing is due any more."""
    if any(due_of(work, line) for line in lines_of(work, order)):
        return False
    work.change(order, closed_at=work.at)
    return True
