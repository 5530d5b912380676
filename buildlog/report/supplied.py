"""Who supplied what, and what was promised for when: lines of orders, as they came and as they are due."""

from collections import Counter
from collections.abc import Iterator

from buildlog.facts.snapshot import Snapshot
from buildlog.facts.stock import OrderLine
from buildlog.report.period import Period
from buildlog.report.table import Column, Table
from buildlog.status.on_order import on_order
from buildlog.status.status import Status
from buildlog.terms import BoughtEntryKind
from buildlog.wording import day

NOBODY = "somebody"


def what_came(snapshot: Snapshot, period: Period) -> Iterator[str]:
    """``filament house: TPU-BLACK ×2``; what came without an order, from whoever usually sells it."""
    came: Counter[tuple[str, str]] = Counter()
    lines = {line.id: line for line in snapshot.order_lines}
    orders = {order.id: order for order in snapshot.orders}
    items = {item.id: item for item in snapshot.bought_items}

    def supplier(line_id: int | None, usual_id: int | None) -> str:
        ordered = orders[lines[line_id].purchase_id].supplier_id if line_id is not None else None
        return _supplier(snapshot, ordered or usual_id)

    for spool in snapshot.spools:
        if period.holds(spool.received_at):
            material = snapshot.material[spool.material_id]
            came[supplier(spool.order_line_id, material.supplier_id), material.code] += 1
    for entry in snapshot.bought_entries:
        if entry.kind is BoughtEntryKind.RECEIVED and period.holds(entry.at):
            item = items[entry.bought_item_id]
            came[supplier(entry.order_line_id, item.supplier_id), item.code] += entry.amount
    for (who, code), amount in sorted(came.items()):
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
            yield f"{_supplier(snapshot, order.supplier_id)}: {lines}, promised for {day(order.expected_at, zone)}"


def promised(status: Status) -> Table:
    """What open orders still bring, by the day it was promised for."""
    snapshot = status.snapshot
    zone = snapshot.settings.home_zone
    orders = {order.id: order for order in snapshot.orders}
    lines = {line.id: line for line in snapshot.order_lines}
    due = sorted(on_order(snapshot, status.now), key=lambda d: (d.due_at, d.order_line_id))
    rows = tuple(
        (
            _supplier(snapshot, orders[one.order_id].supplier_id),
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


def _supplier(snapshot: Snapshot, supplier_id: int | None) -> str:
    return next((s.name for s in snapshot.suppliers if s.id == supplier_id), NOBODY)


def _code(snapshot: Snapshot, line: OrderLine) -> str:
    if line.material_id is not None:
        return snapshot.material[line.material_id].code
    return next(item.code for item in snapshot.bought_items if item.id == line.bought_item_id)
