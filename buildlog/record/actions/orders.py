"""Places orders, receives them in parts if need be, and closes them."""

import re
from datetime import timedelta

from buildlog.errors import AlreadyThere, BadWish, NotFound, Refused
from buildlog.proposals.forms_shop import Spool as SpoolForm
from buildlog.proposals.limits import MOST_PACKS
from buildlog.proposals.lines import Line
from buildlog.proposals.orders import CloseOrder, ExpectOrder, PlaceOrder, ReceiveOrder
from buildlog.record.actions.moments import local
from buildlog.record.actions.receiving import (
    add_spool,
    close_when_all_came,
    due_line,
    due_of,
    lines_of,
    next_codes,
    open_order,
    receive_item,
)
from buildlog.record.tables.stock import BoughtItem, Material, Order, OrderLine, Supplier
from buildlog.record.writer import Work
from buildlog.terms import Moment, Side, Unit, moment, when
from buildlog.wording import so_many


def place_order(wish: PlaceOrder, work: Work) -> str:
    if not wish.lines:
        raise BadWish((("lines", "name what is ordered, as ABS-BLACK x2"),))
    things = [(_thing(work, line), line.quantity) for line in wish.lines]
    supplier = _supplier(work, wish, things[0][0])
    code = wish.code or _next_code(work)
    if work.first(Order, code=code) is not None:
        raise AlreadyThere("order", code)
    order = work.add(
        Order(
            code=code,
            supplier_id=supplier.id if supplier else None,
            placed_at=work.at,
            expected_at=_expected(work, wish, supplier),
            delivery_minor=_delivery(wish, supplier),
        )
    )
    assert order.id is not None
    for thing, quantity in things:
        is_material = isinstance(thing, Material)
        work.add(
            OrderLine(
                purchase_id=order.id,
                material_id=thing.id if is_material else None,
                bought_item_id=None if is_material else thing.id,
                quantity=quantity,
            )
        )
    what = ", ".join(f"{thing.code} {so_many(quantity, _unit_of(thing))}" for thing, quantity in things)
    whose = f" from {supplier.code}" if supplier else ""
    return f"Placed order {order.code}: {what}{whose}, expected {local(work, order.expected_at)}."


def receive_order(wish: ReceiveOrder, work: Work) -> str:
    order = open_order(work, wish.order)
    came: list[str] = []
    if wish.lines:
        for said in wish.lines:
            thing = _thing(work, said)
            line = due_line(work, order, thing, said.quantity, "lines")
            came += _receive(work, line, said.quantity, wish.box)
    else:
        for line in lines_of(work, order):
            came += _receive(work, line, due_of(work, line), wish.box)
    complete = close_when_all_came(work, order)
    return f"Received {', '.join(came)}." + (f" Order {order.code} is complete." if complete else "")


def expect_order(wish: ExpectOrder, work: Work) -> str:
    order = open_order(work, wish.order)
    if wish.expected < order.placed_at:
        raise BadWish((("expected", f"lies before the order itself ({local(work, order.placed_at)})"),))
    work.change(order, expected_at=wish.expected)
    return f"Order {order.code} is expected {local(work, wish.expected)} now."


def close_order(wish: CloseOrder, work: Work) -> str:
    order = open_order(work, wish.order)
    due = sum(due_of(work, line) > 0 for line in lines_of(work, order))
    work.change(order, closed_at=work.at)
    return f"Closed order {order.code}" + (f": what is due on {due} of its lines will not come." if due else ".")


def _receive(work: Work, line: OrderLine, amount: int, box: str | None) -> list[str]:
    """Spools with the next free codes, or an amount of an item; returns what came in words."""
    if amount == 0:
        return []
    if line.material_id is not None:
        material = work.get(Material, line.material_id)
        codes = next_codes(work, material, amount)
        for code in codes:
            add_spool(work, SpoolForm(code=code, material=material.code, box=box), line)
        return codes
    item = work.get(BoughtItem, line.bought_item_id)
    receive_item(work, item, amount, line)
    return [f"{amount} {item.unit} of {item.code}"]


def _unit_of(thing: Material | BoughtItem) -> Unit:
    return thing.unit if isinstance(thing, BoughtItem) else Unit.EACH


def _thing(work: Work, line: Line) -> Material | BoughtItem:
    """The material or bought item that a line names."""
    if line.side is not Side.NONE:
        raise BadWish((("lines", f"{line.code}: what is ordered has no side"),))
    material = work.first(Material, code=line.code)
    item = work.first(BoughtItem, code=line.code)
    if material is not None and line.quantity > MOST_PACKS:
        raise BadWish((("lines", f"{line.code} x{line.quantity}: at most {MOST_PACKS} packs of a material at once"),))
    if material is not None and item is not None:
        raise Refused(f"{line.code} is a material and a bought item: change the code of one of them.")
    thing = material or item
    if thing is None:
        raise NotFound("material or bought item", line.code)
    return thing


def _supplier(work: Work, wish: PlaceOrder, first: Material | BoughtItem) -> Supplier | None:
    if wish.supplier is not None:
        return work.by_code(Supplier, wish.supplier)
    return work.get(Supplier, first.supplier_id) if first.supplier_id is not None else None


def _expected(work: Work, wish: PlaceOrder, supplier: Supplier | None) -> Moment:
    if wish.expected is not None:
        if wish.expected < work.at:
            raise BadWish((("expected", "lies before the order itself"),))
        return wish.expected
    if supplier is None:
        raise BadWish((("expected", "say when it is expected, or name the supplier"),))
    return moment(when(work.at) + timedelta(days=supplier.lead_days))


def _delivery(wish: PlaceOrder, supplier: Supplier | None) -> int:
    if wish.delivery is not None:
        return wish.delivery
    return supplier.delivery_minor if supplier else 0


def _next_code(work: Work) -> str:
    numbers = (re.fullmatch(r"O-(\d+)", order.code) for order in work.all(Order))
    return f"O-{max((int(match[1]) for match in numbers if match), default=0) + 1:02d}"
