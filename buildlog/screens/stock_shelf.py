"""What lies there and what is to come, as rows: alerts, spools of a material, baskets, orders, bought items."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.acts.baskets import basket_name
from buildlog.screens.acts.bought import told_of_item
from buildlog.screens.acts.named import spool_of, told_of_order
from buildlog.screens.lines import section
from buildlog.screens.stock_rows import short_day
from buildlog.screens.widgets.alert_list import folded
from buildlog.screens.widgets.rows import GridRow
from buildlog.screens.widgets.split_cell import Spans, SplitCell
from buildlog.screens.widgets.tones import SIGNS, Tone
from buildlog.terms import Level
from buildlog.wording import grams, money

if TYPE_CHECKING:
    from collections.abc import Iterator

    from buildlog.facts.stock import BoughtItem
    from buildlog.status.accounts import SpoolState
    from buildlog.status.baskets import Basket
    from buildlog.status.status import Status

AMOUNT, STATE = 11, 9


def shelf_rows(status: Status, material_id: int | None, all_alerts: bool) -> list[GridRow]:
    """Everything below the materials; without a material all spools in use, after what asks for something."""
    of_one = section("spools", _title(status, material_id), _spools(status, material_id))
    return [
        *(of_one if material_id is not None else ()),
        *section("baskets", "To order", [row for basket in status.stock.baskets for row in _basket(status, basket)]),
        *section("orders", "On order", list(_orders(status))),
        *section("alerts", "Asks for you", folded(list(_alerts(status)), all_alerts)),
        *(of_one if material_id is None else ()),
        *section("bought", "Bought items", list(_bought(status))),
    ]


def _line(key: str, left: Spans, right: Spans = (), depth: int = 0) -> GridRow:
    return GridRow(key, (SplitCell(left, right),), depth=depth)


def _signed(text: str, tone: Tone) -> tuple[str, Tone]:
    return (f"{SIGNS[tone]} {text}" if tone in SIGNS and text else text, tone)


def _spools(status: Status, material_id: int | None) -> list[GridRow]:
    """Loaded ones first, then open ones, sealed ones, and those with hardly anything on them."""
    used = [s for s in status.accounts.spools.values() if s.usable and material_id in (None, s.material_id)]
    used.sort(key=lambda s: (s.loaded_on is None, _hardly_any(s), s.sealed, spool_of(status, s.spool_id).code))
    return [_spool(status, state) for state in used]


def _hardly_any(state: SpoolState) -> bool:
    """No more than its ± is on it, and it is on no printer."""
    return state.net_mg <= state.pm_mg and state.loaded_on is None


def _title(status: Status, material_id: int | None) -> str:
    return f"Spools of {status.snapshot.material[material_id].name}" if material_id is not None else "All spools"


def _spool(status: Status, state: SpoolState) -> GridRow:
    """Key ``spool:ID``: what is on it, give or take, and how it stands."""
    code = spool_of(status, state.spool_id).code
    amount = f"{grams(state.net_mg)} ± {state.pm_mg / 1000:.0f}".rjust(AMOUNT)
    told, tone = _state(status, state)
    words = _signed(told, tone)[0].rjust(STATE)
    return _line(
        f"spool:{state.spool_id}",
        ((code, Tone.STRONG if state.loaded_on else Tone.PLAIN),),
        ((amount, Tone.CAUTION if state.flagged else Tone.PLAIN), (words, tone)),
    )


def _state(status: Status, state: SpoolState) -> tuple[str, Tone]:
    if state.flagged:
        return "weigh", Tone.CAUTION
    on = status.snapshot.printer[state.loaded_on[0]].code if state.loaded_on else ""
    if _hardly_any(state):
        return "empty?", Tone.FAINT
    if state.wet:
        return f"{on} wet".strip(), Tone.CAUTION
    if on:
        return f"on {on}", Tone.ACCENT
    return ("sealed", Tone.FAINT) if state.sealed else ("open", Tone.FAINT)


def _alerts(status: Status) -> Iterator[GridRow]:
    """Key ``alert:PLACE``; what to order has a section of its own."""
    for index, alert in enumerate(status.alerts):
        if alert.basket is None:
            due = ((short_day(status, alert.due_at), Tone.FAINT),)
            yield _line(f"alert:{index}", (_signed(alert.text, Tone.CAUTION),), due)


def _basket(status: Status, basket: Basket) -> Iterator[GridRow]:
    """Key ``supplier:ID`` (0: nobody named), under it ``line:ID-CODE``."""
    supplier = basket.supplier_id or 0
    currency = status.snapshot.settings.currency
    by, tone = ("now", Tone.BAD) if basket.is_now else (short_day(status, basket.order_by), Tone.PLAIN)
    total = money(basket.total_minor, currency)
    right = ((total, Tone.PLAIN), (_signed(by, tone)[0].rjust(STATE), tone))
    yield _line(f"supplier:{supplier}", ((basket_name(basket), Tone.STRONG),), right)
    for line in basket.lines:
        left = ((f"  {line.told}", Tone.PLAIN),)
        price = f"{line.price_minor / 100:.2f}"
        past = line.order_by <= status.now
        when = ("now" if past else short_day(status, line.order_by)).rjust(STATE)
        yield _line(f"line:{supplier}-{line.code}", left, ((price, Tone.FAINT), (when, Tone.FAINT)), depth=1)


def _orders(status: Status) -> Iterator[GridRow]:
    """Key ``order:ID``; what should have come is marked."""
    still = (order for order in status.snapshot.orders if order.closed_at is None)
    for order in sorted(still, key=lambda order: order.expected_at):
        tone = Tone.CAUTION if order.expected_at <= status.now else Tone.FAINT
        left = ((order.code, Tone.STRONG), (f" {told_of_order(status, order.id)}", Tone.FAINT))
        yield _line(f"order:{order.id}", left, (_signed(f"due {short_day(status, order.expected_at)}", tone),))


def _bought(status: Status) -> Iterator[GridRow]:
    """Key ``bought item:ID``: what asks for something first."""
    items = [item for item in status.snapshot.bought_items if item.retired_at is None]
    told = [(*_how(status, item), item) for item in items]
    for words, tone, item in sorted(told, key=lambda one: (one[1] is Tone.FAINT, one[2].code)):
        left = ((item.code, Tone.PLAIN), (f" {item.name}", Tone.FAINT))
        right = ((told_of_item(status, item), Tone.PLAIN), (_signed(words, tone)[0].rjust(STATE), tone))
        yield _line(f"bought item:{item.id}", left, right)


def _how(status: Status, item: BoughtItem) -> tuple[str, Tone]:
    state = status.accounts.bought[item.id]
    to_order = any(line.bought_item_id == item.id for basket in status.stock.baskets for line in basket.lines)
    if state.flagged:
        return "count", Tone.CAUTION
    if state.level is Level.OUT or to_order:
        return "order", Tone.BAD if state.level is Level.OUT else Tone.CAUTION
    return (f"+{state.on_order}", Tone.FAINT) if state.on_order else ("", Tone.FAINT)
