"""Who supplied what, and what was promised for when: lines of orders, as they came and as they are due."""

from collections import Counter
from collections.abc import Iterator

from buildlog.facts.snapshot import Snapshot
from buildlog.facts.stock import Order, OrderLine
from buildlog.report.period import Period
from buildlog.report.table import Column, Table
from buildlog.status.on_order import on_order
from buildlog.status.status import Status
from buildlog.terms import BoughtEntryKind
from buildlog.wording import day

NOBODY = "somebody"


def what_came(snapshot: Snapshot, period: Period) -> Iterator[str]:
    """``filament house: TPU-BLACK ×2``, what came without an order last."""
    came: Counter[tuple[str, str]] = Counter()
    lines = {line.id: line for line in snapshot.order_lines}
    orders = {order.id: order for order in snapshot.orders}
    items = {item.id: item.code for item in snapshot.bought_items}

    def supplier(line_id: int | None) -> str:
        return _supplier(snapshot, orders[lines[line_id].purchase_id]) if line_id is not None else "without an order"

    for spool in snapshot.spools:
        if period.holds(spool.received_at):
            came[supplier(spool.order_line_id), snapshot.material[spool.material_id].code] += 1
    for entry in snapshot.bought_entries:
        if entry.kind is BoughtEntryKind.RECEIVED and period.holds(entry.at):
            came[supplier(entry.order_line_id), items[entry.bought_item_id]] += entry.amount
    ordered = sorted(came.items(), key=lambda one: (one[0][0] == "without an order", one[0]))
    for (who, code), amount in ordered:
        yield f"{who}: {code} ×{amount}"


def what_was_ordered(snapshot: Snapshot, period: Period) -> Iterator[str]:
    """``filament house: TPU-BLACK ×2, promised for Fri 27 Nov``."""
    zone = snapshot.settings.home_zone
    for order in snapshot.orders:
        if period.holds(order.placed_at):
            lines = ", ".join(
                f"{_code(snapshot, line)} ×{line.quantity}"
                for line in snapshot.order_lines
                if line.purchase_id == order.id
            )
            yield f"{_supplier(snapshot, order)}: {lines}, promised for {day(order.expected_at, zone)}"


def promised(status: Status) -> Table:
    """What open orders still bring, by the day it was promised for."""
    snapshot = status.snapshot
    zone = snapshot.settings.home_zone
    orders = {order.id: order for order in snapshot.orders}
    lines = {line.id: line for line in snapshot.order_lines}
    due = sorted(on_order(snapshot, status.now), key=lambda d: (d.due_at, d.order_line_id))
    rows = tuple(
        (
            _supplier(snapshot, orders[one.order_id]),
            orders[one.order_id].code,
            _code(snapshot, lines[one.order_line_id]),
            one.quantity,
            one.due_at,
            one.due_at < status.now,
        )
        for one in due
    )
    columns = (
        Column("supplier", "Supplier"),
        Column("order", "Order"),
        Column("code", "What"),
        Column("quantity", "Still to come", right=True),
        Column("due_at", "Promised for", lambda at: day(at, zone)),
        Column("late", "", lambda late: "late" if late else ""),
    )
    return Table("promised", "Who promised what", columns, rows, "No order is open.")


def _supplier(snapshot: Snapshot, order: Order) -> str:
    return next((s.name for s in snapshot.suppliers if s.id == order.supplier_id), NOBODY)


def _code(snapshot: Snapshot, line: OrderLine) -> str:
    if line.material_id is not None:
        return snapshot.material[line.material_id].code
    return next(item.code for item in snapshot.bought_items if item.id == line.bought_item_id)
