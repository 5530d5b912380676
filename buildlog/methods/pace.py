"""The pace: print hours in a week, the mean of the last full weeks at home.

With fewer than three full weeks on record a stand-in is used and called usual: the share of the week that is
for building × the printers that are free. All numbers of weeks are our choice.
"""

import statistics
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta, tzinfo
from typing import NamedTuple

from buildlog.methods import lognormal
from buildlog.methods.weeks import Week, weeks_between

WEEKS_TAKEN = 8
WEEKS_NEEDED = 3
HOURS_IN_A_WEEK = 168
STAND_IN_RELATIVE_SD = 0.3
"""How far the stand-in may be off, standard deviation ÷ mean. Our choice."""


class Pace(NamedTuple):
    """Print hours a week: the mean, and what one week in five stays below (`low`) or passes (`high`).

    `weekly_hours` are the full weeks that it rests on, oldest first; none when it is `usual`.
    """

    hours_per_week: float
    low: float
    high: float
    weekly_hours: tuple[float, ...]
    usual: bool


def hours_by_week(runs: Iterable[tuple[datetime, datetime]], weeks: Sequence[Week]) -> tuple[float, ...]:
    """Hours that prints ran in each of some weeks that follow each other; a run is cut where a week ends."""
    hours = [0.0] * len(weeks)
    ends = [week.end for week in weeks]
    for start, end in runs:
        for index in range(bisect_right(ends, start), len(weeks)):
            week = weeks[index]
            if week.start >= end:
                break
            hours[index] += max(0.0, (min(end, week.end) - max(start, week.start)) / timedelta(hours=1))
    return tuple(hours)


def stand_in_hours(printers_free: float, share_not_for_building: float) -> float:
    """Print hours a week that stand in for a pace that is not known yet."""
    if not (printers_free >= 0 and 0 <= share_not_for_building <= 1):
        raise ValueError(f"{printers_free} printers with {share_not_for_building} of the week not for building")
    return HOURS_IN_A_WEEK * (1 - share_not_for_building) * printers_free


def pace(
    runs: Iterable[tuple[datetime, datetime]],
    recorded_since: datetime,
    now: datetime,
    zone: tzinfo,
    stand_in_hours_per_week: float,
) -> Pace:
    """The pace at `now`; `recorded_since` is when the record begins, a week in which it begins is not full.

    A run that goes on ends at `now`. A week without a print counts as one of no hours.
    """
    full = [
        week for week in weeks_between(recorded_since, now, zone) if recorded_since <= week.start and week.end <= now
    ][-WEEKS_TAKEN:]
    if len(full) < WEEKS_NEEDED:
        variance = (STAND_IN_RELATIVE_SD * stand_in_hours_per_week) ** 2
        return _pace(stand_in_hours_per_week, variance, ())
    weekly = hours_by_week(runs, full)
    mean = statistics.fmean(weekly)
    # a week to come scatters like those seen, and the mean is known only as well as they tell
    return _pace(mean, statistics.variance(weekly) * (1 + 1 / len(weekly)), weekly)


def _pace(mean: float, variance: float, weekly: tuple[float, ...]) -> Pace:
    low, high = lognormal.quantiles(mean, variance, 0.2, 0.8)
    return Pace(mean, low, high, weekly, usual=not weekly)
