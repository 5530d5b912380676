"""What enter and the keys do with the line under the cursor of Stock."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.acts.baskets import place_order
from buildlog.screens.acts.bought import count_item, receive_item
from buildlog.screens.acts.orders import open_orders, receive_order
from buildlog.screens.acts.spool_state import receive_spool
from buildlog.screens.acts.spools import weigh_spool
from buildlog.screens.dialogs.choose import Choice

if TYPE_CHECKING:
    from buildlog.screens.stock_keys import StockKeys

SPOOLS, ITEM = -1, -2


async def act_on(screen: StockKeys, key: str) -> None:
    """Weigh a spool, order a basket, receive an order, count an item; an alert leads to what it is about."""
    noun, _, rest = key.partition(":")
    if noun == "spool":
        await weigh_spool(screen, int(rest))
    elif noun in ("supplier", "line"):
        await place_order(screen, int(rest.partition("-")[0]))
    elif noun == "order":
        await receive_order(screen, int(rest))
    elif noun == "bought item":
        await count_item(screen, int(rest))
    elif noun == "alert" and screen.status is not None:
        about = screen.status.alerts[int(rest)].about
        if about is not None:
            await screen.live.lead_to(about.noun, about.id)


async def order_here(screen: StockKeys) -> None:
    """The basket under the cursor, or the one that the material above belongs in."""
    noun, _, rest = screen.cursor_key.partition(":")
    if noun in ("supplier", "line"):
        await place_order(screen, int(rest.partition("-")[0]))
        return
    status, material_id = screen.status, screen.material_here
    if noun == "material" and status is not None:
        baskets = (b for b in status.stock.baskets if any(line.material_id == material_id for line in b.lines))
        found = next(baskets, None)
        if found is not None:
            await place_order(screen, found.supplier_id or 0)
            return
    await place_order(screen)


async def receive_here(screen: StockKeys) -> None:
    """The order under the cursor, one of those that are open, or what came without one."""
    status = screen.status
    if status is None:
        return
    here = screen.cursor_id("order")
    if here is not None:
        await receive_order(screen, here)
        return
    without = [Choice(SPOOLS, "spools", "without an order"), Choice(ITEM, "a bought item", "without an order")]
    chosen = await screen.pick("What came?", [*open_orders(status), *without])
    if chosen == SPOOLS:
        await receive_spool(screen, screen.material_here)
    elif chosen == ITEM:
        await receive_item(screen)
    elif chosen is not None:
        await receive_order(screen, chosen)
