"""Will the material last: materials, spools, bought items, and what to order where."""

from buildlog.report.table import Column, Table
from buildlog.status.status import Status
from buildlog.terms import Moment
from buildlog.wording import day, grams, money


def materials(status: Status) -> Table:
    zone = status.snapshot.settings.home_zone

    def as_day(at: Moment) -> str:
        return day(at, zone)

    rows = tuple(
        (
            status.snapshot.material[found.material_id].code,
            found.on_hand_mg,
            found.pm_mg,
            found.on_order_mg,
            found.need_mg,
            found.short_mg,
            found.runs_out_at,
            found.order_by,
            found.packs_to_order,
            found.reason,
        )
        for found in status.stock.materials.values()
    )
    columns = (
        Column("material", "Material"),
        Column("on_hand_mg", "On hand", grams, right=True),
        Column("pm_mg", "±", grams, right=True),
        Column("on_order_mg", "Ordered", grams, right=True),
        Column("need_mg", "Needs", grams, right=True),
        Column("short_mg", "Short", grams, right=True),
        Column("runs_out_at", "Runs out", as_day),
        Column("order_by", "Order by", as_day),
        Column("packs_to_order", "Packs", lambda n: str(n) if n else "", right=True),
        Column("reason", "Why"),
    )
    return Table("materials", "Will the material last?", columns, rows, "No materials are on the record.")


def spools(status: Status) -> Table:
    snapshot = status.snapshot
    rows = []
    for spool in snapshot.spools:
        state = status.accounts.spools.get(spool.id)
        if state is None or not state.usable:
            continue
        printer = f"{snapshot.printer[state.loaded_on[0]].code} head {state.loaded_on[1]}" if state.loaded_on else ""
        condition = "sealed" if state.sealed else "wet" if state.wet else "open"
        rows.append(
            (
                spool.code,
                snapshot.material[spool.material_id].code,
                state.net_mg,
                state.pm_mg,
                condition,
                printer,
                state.flagged,
            )
        )
    columns = (
        Column("spool", "Spool"),
        Column("material", "Material"),
        Column("net_mg", "On it", grams, right=True),
        Column("pm_mg", "±", grams, right=True),
        Column("condition", "State"),
        Column("loaded_on", "Loaded on"),
        Column("flagged", "Look", lambda flagged: "weigh it" if flagged else ""),
    )
    return Table("spools", "Spools", columns, tuple(rows), "No spools with anything on them.")


def bought(status: Status) -> Table:
    rows = tuple(
        (item.code, item.name, state.amount, item.unit.value, state.level and state.level.value, state.flagged)
        for item in status.snapshot.bought_items
        if item.retired_at is None and (state := status.accounts.bought.get(item.id)) is not None
    )
    columns = (
        Column("item", "Item"),
        Column("name", "Name"),
        Column("amount", "In stock", right=True),
        Column("unit", "Unit"),
        Column("level", "Level"),
        Column("flagged", "Look", lambda flagged: "count it" if flagged else ""),
    )
    return Table("bought", "Bought items", columns, rows, "No bought items are on the record.")


def baskets(status: Status) -> Table:
    """What to order, one line per thing, supplier by supplier."""
    zone, currency = status.snapshot.settings.home_zone, status.snapshot.settings.currency
    rows = tuple(
        (
            basket.supplier,
            line.code,
            line.quantity,
            line.unit,
            line.price_minor,
            line.order_by,
            basket.is_now,
            line.reason,
        )
        for basket in status.stock.baskets
        for line in basket.lines
    )
    columns = (
        Column("supplier", "Supplier"),
        Column("code", "What"),
        Column("quantity", "Quantity", right=True),
        Column("unit", "Unit"),
        Column("price_minor", "Price", lambda minor: money(minor, currency), right=True),
        Column("order_by", "Order by", lambda at: day(at, zone)),
        Column("now", "", lambda now: "now" if now else "later"),
        Column("reason", "Why"),
    )
    return Table("baskets", "What to order", columns, rows, "Nothing needs to be ordered.")
