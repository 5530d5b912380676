"""A parcel came: receive an order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.orders import ReceiveOrder
from buildlog.screens.acts.named import told_of_order
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import day

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status

ALL, SOME = "all", "some"


async def receive_order(screen: LiveScreen, order_id: int | None = None) -> None:
    """All that is due of an order has come, or what is typed."""
    status = screen.status
    if status is None:
        return
    choices = [c for c in open_orders(status) if order_id is None or c.value == order_id]
    chosen = await screen.choose(
        "Which order came?", choices, empty="No order is open: {place_order} on Stock ({go_stock}) places one."
    )
    if chosen is None:
        return
    code = next(order.code for order in status.snapshot.orders if order.id == chosen)
    came = [Choice(ALL, "all that is due came"), Choice(SOME, "only some of it", "type what came")]
    how = await screen.pick(f"What of {code}: {told_of_order(status, chosen)}?", came)
    if how == ALL:
        await screen.wish(ReceiveOrder(order=code))
    elif how == SOME:
        await screen.ask(ReceiveOrder, f"What came of {code}?", values={"order": code})


def open_orders(status: Status) -> list[Choice[int]]:
    """Open orders, the one that should have come first."""
    snapshot = status.snapshot
    zone = snapshot.settings.home_zone
    still = [order for order in snapshot.orders if order.closed_at is None]
    return [
        Choice(
            order.id,
            order.code,
            f"due {day(order.expected_at, zone)}: {told_of_order(status, order.id)}",
            Tone.ACCENT if order.expected_at <= status.now else Tone.FAINT,
        )
        for order in sorted(still, key=lambda order: order.expected_at)
    ]
