"""What it costs: to date and to finish."""

from buildlog.facts.frozen import frozen
from buildlog.facts.printing import Job
from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.hours import Hours
from buildlog.status.stock import Stock
from buildlog.terms import BoughtEntryKind, Moment, minutes_between


@frozen
class Sums:
    """Money in minor units of the ledger's currency."""

    filament_minor: int
    bought_minor: int
    electricity_minor: int

    @property
    def total_minor(self) -> int:
        return self.filament_minor + self.bought_minor + self.electricity_minor


@frozen
class Cost:
    """``spent`` is what was used up so far, over all builds; ``to_finish`` what the open builds still take."""

    spent: Sums
    to_finish: Sums


def reckon_cost(snapshot: Snapshot, now: Moment, accounts: Accounts, hours: Hours, stock: Stock) -> Cost:
    """Filament by what was drawn of each spool at its own price (none told: the material's; a free one costs nothing
    so far), to finish at replacement price; bought items as they were received, to finish as they lie in the baskets.
    """
    return Cost(
        Sums(_filament(snapshot, accounts), _bought(snapshot, now), _electricity(snapshot, now)),
        Sums(_filament_to_finish(snapshot, stock), _bought_to_finish(stock), _electricity_to_finish(snapshot, hours)),
    )


def _filament(snapshot: Snapshot, accounts: Accounts) -> int:
    total = 0.0
    for spool in snapshot.spools:
        material = snapshot.material[spool.material_id]
        price = material.price_minor if spool.price_minor is None else spool.price_minor
        gone = spool.content_mg - max(0, accounts.spools[spool.id].net_mg)
        if price and spool.content_mg:
            total += price * max(0, gone) / spool.content_mg
    return round(total)


def _filament_to_finish(snapshot: Snapshot, stock: Stock) -> int:
    total = 0.0
    for material_id, outlook in stock.materials.items():
        material = snapshot.material[material_id]
        total += outlook.need_mg * material.price_minor / max(1, material.pack_mg)
    return round(total)


def _bought(snapshot: Snapshot, now: Moment) -> int:
    """At the price of the order line where there is one, else at the item's."""
    items = {item.id: item for item in snapshot.bought_items}
    lines = {line.id: line for line in snapshot.order_lines}
    total = 0.0
    for entry in snapshot.bought_entries:
        if entry.kind is BoughtEntryKind.RECEIVED and entry.at <= now:
            item = items[entry.bought_item_id]
            line = lines.get(entry.order_line_id) if entry.order_line_id is not None else None
            if line is not None and line.price_minor is not None and line.quantity:
                total += line.price_minor * entry.amount / line.quantity
            else:
                total += item.price_minor * entry.amount / max(1, item.pack_quantity)
    return round(total)


def _bought_to_finish(stock: Stock) -> int:
    return sum(line.price_minor for b in stock.baskets for line in b.lines if line.bought_item_id is not None)


def _electricity(snapshot: Snapshot, now: Moment) -> int:
    watts = {printer.id: printer.watts for printer in snapshot.printers}
    watt_minutes = sum(
        watts.get(job.printer_id or 0, 0) * ran_minutes(job, now) for job in snapshot.jobs if job.started_at
    )
    return _price(snapshot, watt_minutes)


def _electricity_to_finish(snapshot: Snapshot, hours: Hours) -> int:
    """Each set of printers at its mean power; what no printer can costs nothing yet."""
    watts = {printer.id: printer.watts for printer in snapshot.printers}
    watt_minutes = sum(
        one.minutes * sum(watts[printer_id] for printer_id in one.printer_ids) / len(one.printer_ids)
        for one in hours.sets
        if one.printer_ids
    )
    return _price(snapshot, watt_minutes)


def ran_minutes(job: Job, now: Moment) -> int:
    """How long a job has run by now: as told, else from its start to its end; a running one until now."""
    if job.started_at is None or job.started_at > now:
        return 0
    if job.ended_at is None or job.ended_at > now:
        return max(0, minutes_between(job.started_at, now))
    if job.real_minutes is not None:
        return job.real_minutes
    return max(0, minutes_between(job.started_at, job.stopped_at or job.ended_at))


def _price(snapshot: Snapshot, watt_minutes: float) -> int:
    return round(watt_minutes / 60 / 1000 * snapshot.settings.kwh_price_minor)
