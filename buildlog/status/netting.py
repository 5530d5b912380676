"""The outlook of one material: planned-requirements netting, week by week."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, time
from zoneinfo import ZoneInfo

from buildlog.facts.frozen import frozen
from buildlog.facts.reference_data import Reference
from buildlog.facts.stock import Material, Supplier
from buildlog.methods import requirements
from buildlog.methods.weeks import Week, local_day, local_moment
from buildlog.terms import Moment, moment, when
from buildlog.wording import day, grams


@frozen
class WeekNeed:
    """What a week takes of a material, and what is left at its end with what is on order, nothing new ordered."""

    week_start: Moment
    need_mg: int
    left_mg: int


@frozen
class MaterialOutlook:
    """``on_hand_mg`` is on usable spools, give or take ``pm_mg``; the need is ``running_mg`` still to be drawn +
    ``queued_mg`` + ``to_print_mg`` + ``waste_mg`` (failures on top; purge is in the figures). ``short_mg`` is what is
    lacking when it is worst, at the end or before a parcel comes; 0 when it lasts. ``order_by`` is the last moment of
    an order whose parcel is there before the stock falls below ``safety_mg``; then ``packs_to_order`` of them.
    ``reason`` says it in a sentence.
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
    """Needs and receipts of a material by week; the first week is what is left of the running one."""

    material: Material
    supplier: Supplier | None
    on_hand_mg: int
    gross_mg: Sequence[int]
    scheduled_mg: Sequence[int]
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
    planned = requirements.plan(needed.gross_mg, needed.scheduled_mg, supply).weeks
    left = _left(needed)
    told = tuple(
        WeekNeed(moment(week.start), need, after)
        for week, need, after in zip(weeks, needed.gross_mg, left, strict=True)
    )
    found = Netted(safety, told, _falls_below(0, needed, left, weeks, now), None, None, 0, "")
    first = next((index for index, week in enumerate(planned) if week.planned_receipt), None)
    if first is None:
        return replace(found, reason=_lasts(needed))
    further = first + reference.usual["reorder_need_weeks"].whole + 1
    to_receive = sum(week.planned_receipt for week in planned[first : None if needed.one_lot else further])
    if needed.one_lot:
        extra = reference.usual["one_lot_extra_share"].value * sum(needed.gross_mg)
        to_receive = max(to_receive, round(sum(needed.gross_mg) + extra - needed.on_hand_mg))
    below_at = _falls_below(safety, needed, left, weeks, now) or moment(weeks[first].start)
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


def _left(needed: Needed) -> list[int]:
    left, found = needed.on_hand_mg, []
    for need, arriving in zip(needed.gross_mg, needed.scheduled_mg, strict=True):
        left += arriving - need
        found.append(left)
    return found


def _falls_below(
    level: int, needed: Needed, left: Sequence[int], weeks: Sequence[Week], now: Moment
) -> Moment | None:
    """When the stock falls below a level, each week taking its need evenly after what arrives in it."""
    for index, (week, need, after) in enumerate(zip(weeks, needed.gross_mg, left, strict=True)):
        if after >= level:
            continue
        start = max(week.start, when(now)) if index == 0 else week.start
        share = (need + after - level) / need if need else 0.0
        return moment(_whole_second(start + max(0.0, min(1.0, share)) * (week.end - start)))
    return None


def _whole_second(at: datetime) -> datetime:
    return at.replace(microsecond=0)


def _lasts(needed: Needed) -> str:
    spare = needed.on_hand_mg + sum(needed.scheduled_mg) - sum(needed.gross_mg)
    return f"lasts, {grams(spare)} left over" if sum(needed.gross_mg) else "nothing asks for it"


def _reason(packs: int, safety: int, below_at: Moment, runs_out_at: Moment | None, lead: int, zone: ZoneInfo) -> str:
    gone = f", is gone on {day(runs_out_at, zone)}" if runs_out_at else ""
    many = "1 pack" if packs == 1 else f"{packs} packs"
    return f"{many}: below the reserve of {grams(safety)} on {day(below_at, zone)}{gone}; {lead} days to come"
