"""Whether the material lasts: what is laid against it, when it runs out, when and what to order."""

import math
from collections import Counter
from collections.abc import Iterable
from functools import cached_property
from operator import itemgetter
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from buildlog.facts.frozen import frozen_with_late_answers
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.facts.stock import Material
from buildlog.status.accounts import Accounts, SpoolState
from buildlog.status.asks import Key, PieceAsks, Work, work_to_print, work_under_way
from buildlog.status.baskets import Basket, BasketLine, fill_baskets
from buildlog.status.bought_short import bought_lines
from buildlog.status.hours import Hours
from buildlog.status.kept import Kept
from buildlog.status.laying import Laid, NotCovered, lay
from buildlog.status.needs import Needs
from buildlog.status.netting import MaterialOutlook, Needed, Parcel, WeekNeed, net
from buildlog.status.on_order import OnOrder, on_order
from buildlog.status.one_spool import SpoolsOf, carriers_of, heads_to_print, spools_for_prints, usable_spools
from buildlog.status.print_pace import home_zone
from buildlog.status.spool_check import SpoolCheck, spool_check
from buildlog.status.timeline import Timeline, draw_timeline
from buildlog.terms import Moment

if TYPE_CHECKING:
    from buildlog.status.burn_down import BurnDown, Curve

__all__ = [
    "Basket",
    "BasketLine",
    "MaterialOutlook",
    "NotCovered",
    "SpoolCheck",
    "Stock",
    "WeekNeed",
    "burn_down_of",
    "lay_material",
    "spool_check",
]


@frozen_with_late_answers
class Stock:
    """Over all open builds, for stock and alerts. ``not_covered`` by (part, side): its slots to get from that
    rank on are blocked. ``one_spool`` by (part, side) to print: the spool that carries its print best in one go (of
    several heads the worst). The rest is computed when it is first asked for, from ``work`` and what was ``laid``
    against it: ``materials`` by id, ``hours_burn_down`` of print hours (`burn_down_of` gives that of a material).
    """

    not_covered: dict[Key, NotCovered]
    one_spool: dict[Key, SpoolCheck]
    work: tuple[Work, ...]
    laid: tuple[Laid, ...]
    snapshot: Snapshot
    now: Moment
    accounts: Accounts
    needs: Needs
    hours: Hours

    @cached_property
    def timeline(self) -> Timeline:
        return _timeline(self.now, self._zone, self.hours, self.work)

    @cached_property
    def materials(self) -> dict[int, MaterialOutlook]:
        spools = usable_spools(self.accounts)
        due = _due(self.snapshot, self.now)
        by_material = grouped(self.laid, itemgetter(0))
        usual_pace = self.hours.learning.pace.usual
        return {
            material.id: _outlook(
                self.snapshot,
                material,
                spools.get(material.id, []),
                by_material.get(material.id, []),
                due.get(material.id, []),
                self.timeline,
                usual_pace,
            )
            for material in self.snapshot.materials
            if material.retired_at is None or material.id in by_material
        }

    @cached_property
    def baskets(self) -> tuple[Basket, ...]:
        bought = bought_lines(self.snapshot, self.now, self._zone, self.accounts, self.needs, self.timeline)
        return fill_baskets(self.snapshot, self.now, self._zone, self.materials.values(), bought)

    @cached_property
    def hours_burn_down(self) -> "BurnDown":
        from buildlog.status.burn_down import hours_burn_down  # burn-downs are for Stock and the report

        return hours_burn_down(self.snapshot, self.now, self._zone, self.needs, self.hours, self.timeline)

    @property
    def _zone(self) -> ZoneInfo:
        return home_zone(self.snapshot.settings.home_zone)


TO_PRINT_READ = ("parts", "revisions", "demands", "materials", "print_files", "file_lines", "file_tools")


def lay_material(
    snapshot: Snapshot, now: Moment, accounts: Accounts, needs: Needs, hours: Hours, kept: Kept | None = None
) -> Stock:
    """Lay what is on usable spools against running, queued and to-print work in its order."""
    kept = kept or Kept(snapshot, now)
    spools = usable_spools(accounts)
    asks = PieceAsks(snapshot, now, hours)
    asked_by = (needs, hours.pieces, hours.learning.grams)
    to_print = kept.ask(
        "to print", TO_PRINT_READ, asked_by, lambda: tuple(work_to_print(snapshot, needs, hours, asks))
    )
    under_way = kept.ask(
        "under way",
        ("spools", "materials", "feeds"),
        (hours.running, hours.queued, hours.learning.grams),
        lambda: tuple(work_under_way(snapshot, hours)),
    )
    work = kept.ask("material asked for", (), (under_way, to_print), lambda: (*under_way, *to_print))
    free = kept.ask("free", (), (accounts.spools,), lambda: _free_mg(spools))
    arrivals = {material_id: min(line.due_at for line in due) for material_id, due in _due(snapshot, now).items()}
    arrivals = kept.ask("arrivals", (), (arrivals,), lambda: arrivals)
    laying = kept.ask("laying", ("materials",), (free, work, arrivals), lambda: lay(snapshot, free, work, arrivals))
    heads = kept.ask("heads", TO_PRINT_READ, asked_by, lambda: heads_to_print(snapshot, needs, hours, asks))
    return Stock(
        not_covered=laying.not_covered,
        one_spool=spools_for_prints(carriers_of(snapshot, now, spools, kept), heads, kept),
        work=work,
        laid=tuple(laying.laid),
        snapshot=snapshot,
        now=now,
        accounts=accounts,
        needs=needs,
        hours=hours,
    )


def _free_mg(spools: SpoolsOf) -> dict[int, int]:
    return {material_id: sum(spool.free_mg for spool in held) for material_id, held in spools.items()}


def _due(snapshot: Snapshot, now: Moment) -> dict[int, list[OnOrder]]:
    """By material what open orders still bring."""
    return grouped((o for o in on_order(snapshot, now) if o.material_id is not None), lambda o: o.material_id or 0)


def burn_down_of(snapshot: Snapshot, now: Moment, stock: Stock, hours: Hours, material_id: int) -> "BurnDown":
    """Grams of a material on hand, replayed and foretold; asked for one material at a time."""
    from buildlog.status.burn_down import material_burn_down
    from buildlog.status.spool_curve import grams_on_hand

    outlook, pace = stock.materials[material_id], hours.learning.pace
    zone = home_zone(snapshot.settings.home_zone)
    actual: Curve = (
        *grams_on_hand(snapshot, now, zone, material_id),
        (now, outlook.on_hand_mg / 1000),
    )
    return material_burn_down(now, outlook, actual, stock.timeline, (pace.hours_per_week, pace.low, pace.high))


def _timeline(now: Moment, zone: ZoneInfo, hours: Hours, work: Iterable[Work]) -> Timeline:
    ranks, before, minutes = [], [], 0.0
    for one in work:
        if one.key is not None:
            ranks.append(one.rank)
            before.append(minutes)
        minutes += one.minutes
    return draw_timeline(now, zone, hours.learning.pace.hours_per_week, minutes, ranks, before)


def _outlook(
    snapshot: Snapshot,
    material: Material,
    spools: list[SpoolState],
    laid: list[Laid],
    due: list[OnOrder],
    timeline: Timeline,
    usual_pace: bool,
) -> MaterialOutlook:
    running = sum(spool.still_to_draw_mg for spool in spools)
    gross, by_kind, waste = [0] * len(timeline.weeks), Counter(running=running), 0
    gross[0] = running
    for _, ask, one, at_minutes in laid:
        gross[timeline.week_of(at_minutes)] += ask.mg + ask.waste_mg
        by_kind[one.kind] += ask.mg
        waste += ask.waste_mg
    parcels = [Parcel(line.due_at, line.quantity * material.pack_mg) for line in due]
    on_hand = sum(max(0, spool.net_mg) for spool in spools)
    suppliers = {supplier.id: supplier for supplier in snapshot.suppliers}
    supplier = suppliers.get(material.supplier_id) if material.supplier_id is not None else None
    zone = home_zone(snapshot.settings.home_zone)
    needed = Needed(material, supplier, on_hand, gross, parcels, any(one.one_lot for _, _, one, _ in laid))
    netted = net(needed, timeline.weeks, timeline.now, zone, snapshot.reference)
    return MaterialOutlook(
        material_id=material.id,
        on_hand_mg=on_hand,
        pm_mg=round(math.sqrt(sum(spool.pm_mg**2 for spool in spools))),
        sealed_spools=sum(spool.sealed for spool in spools),
        running_mg=running,
        queued_mg=by_kind["queued"],
        to_print_mg=by_kind["to print"] + by_kind["spare"],
        waste_mg=waste,
        short_mg=max(0, -min(week.left_mg for week in netted.weeks)),
        safety_mg=netted.safety_mg,
        weeks=netted.weeks,
        runs_out_at=netted.runs_out_at,
        order_by=netted.order_by,
        packs_to_order=netted.packs,
        on_order_mg=sum(parcel.mg for parcel in parcels),
        due_at=min((line.due_at for line in due), default=None),
        usual_pace=usual_pace,
        reason=netted.reason,
    )
