"""Order what a supplier's basket holds."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from buildlog.proposals.lines import Line
from buildlog.proposals.orders import PlaceOrder
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import day, money

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen
    from buildlog.status.baskets import Basket, BasketLine
    from buildlog.status.status import Status

ALL, DUE, TYPED = "all", "due", "typed"
NOTHING = "Nothing needs to be ordered: Stock ({go_stock}) says how long each material lasts."


async def place_order(screen: LiveScreen, supplier_id: int | None = None) -> None:
    """The whole basket, only what is due today, or what is typed; 0 is the basket of no supplier."""
    status = screen.status
    if status is None:
        return
    choices = [
        Choice(basket, basket_name(basket), told_of_basket(status, basket), Tone.BAD if basket.is_now else Tone.FAINT)
        for basket in status.stock.baskets
        if supplier_id is None or (basket.supplier_id or 0) == supplier_id
    ]
    basket = await screen.choose("Order at which supplier?", choices, empty=NOTHING)
    if basket is None:
        return
    codes = {supplier.id: supplier.code for supplier in status.snapshot.suppliers}
    supplier = codes.get(basket.supplier_id) if basket.supplier_id is not None else None
    due = [line for line in basket.lines if line.order_by <= status.now]
    ways = [Choice(ALL, "order all of it", _told(basket.lines)), Choice(TYPED, "change something first")]
    if due and len(due) < len(basket.lines):
        ways.insert(1, Choice(DUE, "order only what is due", _told(due)))
    how = await screen.pick(f"{basket_name(basket)}, {told_of_basket(status, basket)}: what do you order?", ways)
    lines = tuple(Line(line.code, quantity=line.quantity) for line in (due if how == DUE else basket.lines))
    values: dict[str, Any] = {"supplier": supplier, "lines": lines}
    if how == TYPED or (how is not None and supplier is None):
        only = ("lines", "supplier", "expected", "delivery", "code")
        await screen.ask(PlaceOrder, f"Order at {basket_name(basket)}", values=values, only=only)
    elif how is not None:
        await screen.wish(PlaceOrder(**values))


def basket_name(basket: Basket) -> str:
    return basket.supplier or "no supplier named"


def told_of_basket(status: Status, basket: Basket) -> str:
    """``84.80 EUR, order now``."""
    settings = status.snapshot.settings
    by = "order now" if basket.is_now else f"by {day(basket.order_by, settings.home_zone)}"
    return f"{money(basket.total_minor, settings.currency)}, {by}"


def _told(lines: tuple[BasketLine, ...] | list[BasketLine]) -> str:
    return ", ".join(line.told for line in lines)
