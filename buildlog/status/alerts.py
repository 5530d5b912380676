"""What asks for an answer: orders, parcels, spools that do not last or do not add up."""

from collections.abc import Iterator
from enum import StrEnum
from zoneinfo import ZoneInfo

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.baskets import Basket
from buildlog.status.blocker import Thing
from buildlog.status.on_order import on_order
from buildlog.status.print_pace import home_zone
from buildlog.status.stock import Stock
from buildlog.terms import Moment
from buildlog.wording import day, is_before


class AlertLevel(StrEnum):
    ORDER_NOW = "order now"
    LOOK = "look"
    LATER = "later"


@frozen
class Alert:
    """``due_at`` is the last moment to act, or when something is due; ``basket`` only where something is to order."""

    level: AlertLevel
    text: str
    due_at: Moment | None
    basket: Basket | None
    about: Thing | None


def alerts(snapshot: Snapshot, now: Moment, accounts: Accounts, stock: Stock) -> tuple[Alert, ...]:
    """What to order now, what to look at, what to order later; the most urgent first."""
    zone = home_zone(snapshot.settings.home_zone)
    found = [
        *_baskets(stock, now, zone),
        *_parcels(snapshot, now, zone),
        *_spools(snapshot, accounts),
        *_printers(snapshot, now, accounts),
        *_uncovered(stock),
    ]
    rank = {level: index for index, level in enumerate(AlertLevel)}
    return tuple(sorted(found, key=lambda alert: (rank[alert.level], alert.due_at or "9", alert.text)))


def _baskets(stock: Stock, now: Moment, zone: ZoneInfo) -> Iterator[Alert]:
    for basket in stock.baskets:
        lines = ", ".join(line.told for line in basket.lines)
        where = f" at {basket.supplier}" if basket.supplier else ""
        about = Thing("supplier", basket.supplier_id, basket.supplier) if basket.supplier_id is not None else None
        if basket.is_now:
            due = min((line.order_by for line in basket.lines if line.is_short), default=now)
            since = f", overdue since {day(due, zone)}" if is_before(due, now, zone) else ""
            yield Alert(AlertLevel.ORDER_NOW, f"order today{where}{since}: {lines}", basket.order_by, basket, about)
        else:
            text = f"order by {day(basket.order_by, zone)}{where}: {lines}"
            yield Alert(AlertLevel.LATER, text, basket.order_by, basket, about)


def _parcels(snapshot: Snapshot, now: Moment, zone: ZoneInfo) -> Iterator[Alert]:
    """Orders that should have come: receive them, or ask."""
    late = {line.order_id: line.due_at for line in on_order(snapshot, now) if line.due_at <= now}
    for order in snapshot.orders:
        if order.id in late:
            text = f"order {order.code} was due on {day(late[order.id], zone)}: receive it, or ask"
            yield Alert(AlertLevel.LOOK, text, late[order.id], None, Thing("order", order.id, order.code))


def _spools(snapshot: Snapshot, accounts: Accounts) -> Iterator[Alert]:
    """Balances that do not add up, and loaded spools that have lain open too long."""
    for spool in snapshot.spools:
        state, about = accounts.spools[spool.id], Thing("spool", spool.id, spool.code)
        if state.usable and state.flagged:
            yield Alert(AlertLevel.LOOK, f"{spool.code}: {state.flagged}", None, None, about)
        if state.usable and state.wet and state.loaded_on is not None:
            text = f"{spool.code} has lain open for {state.open_minutes // 1440} days: dry it first"
            yield Alert(AlertLevel.LOOK, text, None, None, about)
    for item in snapshot.bought_items:
        if item.retired_at is None and (flagged := accounts.bought[item.id].flagged):
            about = Thing("bought item", item.id, item.code)
            yield Alert(AlertLevel.LOOK, f"{item.code}: {flagged}", None, None, about)


def _printers(snapshot: Snapshot, now: Moment, accounts: Accounts) -> Iterator[Alert]:
    """Printers that should be up again by now."""
    for printer in snapshot.printers:
        until = accounts.set_up[printer.id].down_until
        if printer.retired_at is None and until is not None and until <= now:
            text = f"{printer.code} should be up again: say so, or until when it is down"
            yield Alert(AlertLevel.LOOK, text, until, None, Thing("printer", printer.id, printer.code))


def _uncovered(stock: Stock) -> Iterator[Alert]:
    """Polymers of which the ledger knows no material at all: nothing can be ordered for them."""
    for reason in sorted({m.reason for m in stock.not_covered.values() if m.material_id is None}):
        yield Alert(AlertLevel.LOOK, reason, None, None, None)
