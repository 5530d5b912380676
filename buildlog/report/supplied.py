"""Who supplied what, and what was promised for when: lines of orders, as they came and as they are due."""

from collections import Counter
from collections.abc import Iterator

from buildlog.facts.snapshot import Snapshot
from buildlog.report.period import Period
from buildlog.report.table import Column, Table
from buildlog.status.on_order import on_order, ordered_thing
from buildlog.status.status import Status
from buildlog.terms import BoughtEntryKind, Unit
from buildlog.wording import day, so_many

NOBODY = "somebody"


def what_came(snapshot: Snapshot, period: Period) -> Iterator[str]:
    """``filament house: TPU-BLACK ×2``; what came without an order, from whoever usually sells it."""
    came: Counter[tuple[str, str, Unit]] = Counter()
    lines = {line.id: line for line in snapshot.order_lines}
    orders = {order.id: order for order in snapshot.orders}
    items = {item.id: item for item in snapshot.bought_items}

    def supplier(line_id: int | None, usual_id: int | None) -> str:
        ordered = orders[lines[line_id].purchase_id].supplier_id if line_id is not None else None
        return _supplier(snapshot, ordered or usual_id)

    for spool in snapshot.spools:
        if period.holds(spool.received_at):
            material = snapshot.material[spool.material_id]
            came[supplier(spool.order_line_id, material.supplier_id), material.code, Unit.EACH] += 1
    for entry in snapshot.bought_entries:
        if entry.kind is BoughtEntryKind.RECEIVED and period.holds(entry.at):
            item = items[entry.bought_item_id]
            came[supplier(entry.order_line_id, item.supplier_id), item.code, item.unit] += entry.amount
    for (who, code, unit), amount in sorted(came.items()):
        yield f"{who}: {code} {so_many(amount, unit)}"


def what_was_ordered(snapshot: Snapshot, period: Period) -> Iterator[str]:
    """``filament house: TPU-BLACK ×2, promised for Fri 27 Nov``."""
    zone = snapshot.settings.home_zone
    for order in snapshot.orders:
        if period.holds(order.placed_at):
            asked = [line for line in snapshot.order_lines if line.purchase_id == order.id]
            told = ((line.quantity, *ordered_thing(snapshot, line)) for line in asked)
            lines = ", ".join(f"{code} {so_many(quantity, unit)}" for quantity, code, unit in told)
            yield f"{_supplier(snapshot, order.supplier_id)}: {lines}, promised for {day(order.expected_at, zone)}"


def promised(status: Status) -> Table:
    """What open orders still bring, by the day it was promised for."""
    snapshot = status.snapshot
    zone = snapshot.settings.home_zone
    orders = {order.id: order for order in snapshot.orders}
    due = sorted(on_order(snapshot, status.now), key=lambda d: (d.due_at, d.order_line_id))
    rows = tuple(
        (
            _supplier(snapshot, orders[one.order_id].supplier_id),
            orders[one.order_id].code,
            code,
            one.quantity,
            unit,
            one.due_at,
            one.due_at < status.now,
        )
        for one in due
        for code, unit in (ordered_thing(snapshot, one),)
    )
    columns = (
        Column("supplier", "Supplier"),
        Column("order", "Order"),
        Column("code", "What"),
        Column("quantity", "Still to come", right=True),
        Column("unit", "Unit"),
        Column("due_at", "Promised for", lambda at: day(at, zone)),
        Column("late", "", lambda late: "late" if late else ""),
    )
    return Table("promised", "What open orders bring", columns, rows, "No order is open.")


def _supplier(snapshot: Snapshot, supplier_id: int | None) -> str:
    return next((s.name for s in snapshot.suppliers if s.id == supplier_id), NOBODY)
