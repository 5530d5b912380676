"""Bought items that are drawn for what no slot and no step asks for, and when to order them: screws for jigs, oil."""

import math
import statistics
from collections.abc import Sequence
from datetime import timedelta
from zoneinfo import ZoneInfo

from buildlog.facts.frozen import frozen
from buildlog.facts.stock import BoughtEntry
from buildlog.methods.reorder_point import lead_time_demand_sd, reorder_point, safety_stock, z_of
from buildlog.methods.weeks import weeks_between
from buildlog.terms import BoughtEntryKind, Moment, when

WEEKS_TAKEN = 8
WEEKS_NEEDED = 3
SERVICE_LEVEL = 0.95
"""Share of order cycles that shall not run out; like the weeks, our choice."""


@frozen
class OutsideUse:
    """What a week takes on average, and the stock at which to order, in the item's unit."""

    per_week: float
    order_at: int


def use_outside(entries: Sequence[BoughtEntry], lead_days: int, now: Moment, zone: ZoneInfo) -> OutsideUse | None:
    """From the draws of the last full weeks that neither a slot nor a step asked for; None where there are none, or
    fewer than three weeks on the record.
    """
    draws = [
        entry
        for entry in entries
        if entry.kind is BoughtEntryKind.DRAWN and entry.fitting_id is None and entry.step_done_id is None
    ]
    begun = min((when(entry.at) for entry in entries if entry.at <= now), default=None)
    if begun is None or not draws:
        return None
    at = when(now)
    weeks = weeks_between(max(begun, at - timedelta(weeks=WEEKS_TAKEN)), at, zone)
    full = [week for week in weeks if begun <= week.start and week.end <= at]
    if len(full) < WEEKS_NEEDED:
        return None
    drawn = [sum(entry.amount for entry in draws if week.start <= when(entry.at) < week.end) for week in full]
    mean = statistics.fmean(drawn)
    if mean <= 0:
        return None
    lead_weeks = lead_days / 7
    safety = safety_stock(z_of(SERVICE_LEVEL), lead_time_demand_sd(mean, lead_weeks, statistics.stdev(drawn)))
    return OutsideUse(mean, math.ceil(reorder_point(mean, lead_weeks, safety)))
