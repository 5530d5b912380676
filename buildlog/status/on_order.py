"""What open orders still bring."""

from collections import Counter

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.stock import OrderLine
from buildlog.terms import BoughtEntryKind, Moment, Unit
from buildlog.wording import so_many


@frozen
class OnOrder:
    """What has not come yet of one order line: packs of a material, or an amount of a bought item."""

    order_line_id: int
    order_id: int
    material_id: int | None
    bought_item_id: int | None
    quantity: int
    due_at: Moment


def on_order(snapshot: Snapshot, now: Moment) -> tuple[OnOrder, ...]:
    """Lines of the orders open at ``now``, oldest first. A spool received counts as one pack."""
    orders = {
        order.id: order
        for order in snapshot.orders
        if order.placed_at <= now and (order.closed_at is None or order.closed_at > now)
    }
    if not orders:
        return ()
    came = Counter[int | None](s.order_line_id for s in snapshot.spools if s.received_at <= now)
    for entry in snapshot.bought_entries:
        if entry.order_line_id is not None and entry.kind is BoughtEntryKind.RECEIVED and entry.at <= now:
            came[entry.order_line_id] += entry.amount
    return tuple(
        OnOrder(
            line.id, order.id, line.material_id, line.bought_item_id, line.quantity - came[line.id], order.expected_at
        )
        for line in snapshot.order_lines
        if (order := orders.get(line.purchase_id)) is not None and line.quantity > came[line.id]
    )


def what_is_due(snapshot: Snapshot, line: OnOrder) -> str:
    """``ABS-BLACK ×2``: what has not come of it."""
    code, unit = ordered_thing(snapshot, line)
    return f"{code} {so_many(line.quantity, unit)}"


def ordered_thing(snapshot: Snapshot, line: OnOrder | OrderLine) -> tuple[str, Unit]:
    """Its code, and the unit that its quantity is in; spools are counted."""
    if line.material_id is not None:
        return snapshot.material[line.material_id].code, Unit.EACH
    item = next(item for item in snapshot.bought_items if item.id == line.bought_item_id)
    return item.code, item.unit
