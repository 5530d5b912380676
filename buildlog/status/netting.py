"""The outlook of one material: planned-requirements netting, week by week."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, time
from typing import NamedTuple
from zoneinfo import ZoneInfo

from buildlog.facts.frozen import frozen
from buildlog.facts.reference_data import Reference
from buildlog.facts.stock import Material, Supplier
from buildlog.methods import requirements
from buildlog.methods.depletion import empty_after
from buildlog.methods.weeks import Week, local_day, local_moment
from buildlog.terms import Moment, moment, when
from buildlog.wording import day, grams


@frozen
class WeekNeed:
    """What a week takes of a material, what comes in it of what is on order, and what is left at its end with
    nothing new ordered."""

    week_start: Moment
    need_mg: int
    arriving_mg: int
    left_mg: int


class Parcel(NamedTuple):
    """Something on order and when it is due; what should have come before now is taken to come at once."""

    due_at: Moment
    mg: int


@frozen
class MaterialOutlook:
    """``on_hand_mg`` is on usable spools, give or take ``pm_mg``; the need is ``running_mg`` still to be drawn +
    ``queued_mg`` + ``to_print_mg`` + ``waste_mg`` (failures on top; purge is in the figures). ``short_mg`` is what is
    lacking at the end of the worst week, with what is on order; 0 when it lasts. ``runs_out_at`` can be before a
    parcel that comes later in the same week. ``order_by`` is the last moment of an order whose parcel is there before
    the stock falls below ``safety_mg``; then ``packs_to_order`` of them. ``reason`` says it in a sentence.
    """

    material_id: int
    on_hand_mg: int
    pm_mg: int
    sealed_spools: int
    running_mg: int
    queued_mg: int
    to_print_mg: int
    waste_mg: int
    short_mg: int
    safety_mg: int
    weeks: tuple[WeekNeed, ...]
    runs_out_at: Moment | None
    order_by: Moment | None
    packs_to_order: int
    on_order_mg: int
    due_at: Moment | None
    usual_pace: bool
    reason: str

    @property
    def need_mg(self) -> int:
        return self.running_mg + self.queued_mg + self.to_print_mg + self.waste_mg


@frozen
class Netted:
    """All that netting says of a material; the moments are None when nothing is to be ordered or nothing runs out."""

    safety_mg: int
    weeks: tuple[WeekNeed, ...]
    runs_out_at: Moment | None
    below_at: Moment | None
    order_by: Moment | None
    packs: int
    reason: str


@frozen
class Needed:
    """Needs of a material by week, of which the first is what is left of the running one; and what is on order."""

    material: Material
    supplier: Supplier | None
    on_hand_mg: int
    gross_mg: Sequence[int]
    parcels: Sequence[Parcel]
    one_lot: bool


def lead_days(own: int | None, supplier: Supplier | None, reference: Reference) -> int:
    """Calendar days: of the thing, else of its supplier, else the usual working days with a weekend for each five."""
    if own is not None:
        return own
    if supplier is not None:
        return supplier.lead_days
    working = reference.usual["lead_working_days"].whole
    return working + 2 * -(-working // 5)


def order_moment(need_at: Moment, days: int, supplier: Supplier | None, zone: ZoneInfo) -> Moment:
    """The last moment of an order that arrives by the day of the need: the supplier's cut-off, else the day's end."""
    weekday = supplier.cutoff_weekday if supplier else None
    last_day = requirements.order_by(local_day(when(need_at), zone), days, weekday)
    minutes = supplier.cutoff_minutes if supplier and supplier.cutoff_minutes is not None else 23 * 60 + 59
    return moment(local_moment(last_day, time(minutes // 60, minutes % 60), zone))


def net(needed: Needed, weeks: Sequence[Week], now: Moment, zone: ZoneInfo, reference: Reference) -> Netted:
    """Net the need of each week against stock and receipts; the first planned receipt tells when and what to order.

    The packs ordered at once cover the usual two weeks more; a colour shown from one lot is bought whole, and 20 %.
    """
    lead = lead_days(needed.material.lead_days, needed.supplier, reference)
    safety = _safety_mg(needed, lead, reference)
    pack = max(1, needed.material.pack_mg)
    supply = requirements.Supply(needed.on_hand_mg, safety, pack)
    arriving = _arriving(needed, weeks)
    planned = requirements.plan(needed.gross_mg, arriving, supply).weeks
    told = _told(needed, arriving, weeks)
    parcels = [(_weeks_until(parcel.due_at, weeks, now), parcel.mg) for parcel in needed.parcels]
    passed = empty_after(needed.on_hand_mg, needed.gross_mg, parcels)
    runs_out_at = None if passed is None else _moment_after(passed, weeks, now)
    found = Netted(safety, told, runs_out_at, None, None, 0, "")
    first = next((index for index, week in enumerate(planned) if week.planned_receipt), None)
    if first is None:
        return replace(found, reason=_lasts(needed, runs_out_at, zone))
    further = first + reference.usual["reorder_need_weeks"].whole + 1
    to_receive = sum(week.planned_receipt for week in planned[first : None if needed.one_lot else further])
    if needed.one_lot:
        extra = reference.usual["one_lot_extra_share"].value * sum(needed.gross_mg)
        to_receive = max(to_receive, round(sum(needed.gross_mg) + extra - needed.on_hand_mg))
    below_at = _falls_below(safety, told, weeks, now) or moment(weeks[first].start)
    by = order_moment(below_at, lead, needed.supplier, zone)
    packs = -(-to_receive // pack)
    reason = _reason(packs, safety, below_at, found.runs_out_at, lead, zone)
    return replace(found, below_at=below_at, order_by=by, packs=packs, reason=reason)


def _safety_mg(needed: Needed, lead: int, reference: Reference) -> int:
    """Sealed spools kept (usual one) and 20 % of the need of the next two weeks and the lead time; never more than
    the whole need still to come: nobody keeps a spool for the last hook.
    """
    usual = reference.usual
    kept = needed.material.safety_packs
    packs = usual["reorder_sealed_spools_count"].whole if kept is None else kept
    weeks = usual["reorder_need_weeks"].whole + -(-lead // 7)
    share = usual["reorder_factor"].value - 1
    near = sum(needed.gross_mg[:weeks])
    return min(round(packs * needed.material.pack_mg + share * near), sum(needed.gross_mg))


def _arriving(needed: Needed, weeks: Sequence[Week]) -> list[int]:
    """Milligrams on order by the week that they come in; what comes later still is told in the last."""
    found, starts = [0] * len(weeks), [moment(week.start) for week in weeks]
    for parcel in needed.parcels:
        found[max(0, bisect_right(starts, parcel.due_at) - 1)] += parcel.mg
    return found


def _told(needed: Needed, arriving: Sequence[int], weeks: Sequence[Week]) -> tuple[WeekNeed, ...]:
    left, found = needed.on_hand_mg, []
    for week, need, coming in zip(weeks, needed.gross_mg, arriving, strict=True):
        left += coming - need
        found.append(WeekNeed(moment(week.start), need, coming, left))
    return tuple(found)


def _falls_below(level: int, told: Sequence[WeekNeed], weeks: Sequence[Week], now: Moment) -> Moment | None:
    """When the stock falls below a level, each week taking its need evenly after what arrives in it."""
    for index, week in enumerate(told):
        if week.left_mg < level:
            share = (week.need_mg + week.left_mg - level) / week.need_mg if week.need_mg else 0.0
            return _moment_after(index + max(0.0, min(1.0, share)), weeks, now)
    return None


def _weeks_until(at: Moment, weeks: Sequence[Week], now: Moment) -> float:
    """So many of the weeks have passed then, the first being what is left of the running one."""
    then = when(at)
    for index, week in enumerate(weeks):
        start = _start(index, week, now)
        if then < week.end:
            return index + max(0.0, (then - start) / (week.end - start))
    return float(len(weeks))


def _moment_after(passed: float, weeks: Sequence[Week], now: Moment) -> Moment:
    index = min(int(passed), len(weeks) - 1)
    start, end = _start(index, weeks[index], now), weeks[index].end
    return moment((start + (passed - index) * (end - start)).replace(microsecond=0))


def _start(index: int, week: Week, now: Moment) -> datetime:
    return max(week.start, when(now)) if index == 0 else week.start


def _lasts(needed: Needed, runs_out_at: Moment | None, zone: ZoneInfo) -> str:
    if not sum(needed.gross_mg):
        return "nothing asks for it"
    if runs_out_at is not None:
        return _gap(runs_out_at, zone)
    spare = needed.on_hand_mg + sum(parcel.mg for parcel in needed.parcels) - sum(needed.gross_mg)
    return f"lasts, {grams(spare)} left over"


def _reason(packs: int, safety: int, below_at: Moment, runs_out_at: Moment | None, lead: int, zone: ZoneInfo) -> str:
    before, after = "", ""
    if runs_out_at is not None and runs_out_at < below_at:
        before = f"{_gap(runs_out_at, zone)}; "
    elif runs_out_at is not None:
        after = f", is gone on {day(runs_out_at, zone)}"
    many = "1 pack" if packs == 1 else f"{packs} packs"
    return (
        f"{before}{many}: below the reserve of {grams(safety)} on {day(below_at, zone)}{after}; {lead} days to come"
    )


def _gap(runs_out_at: Moment, zone: ZoneInfo) -> str:
    return f"is gone on {day(runs_out_at, zone)}, until what is on order comes"
