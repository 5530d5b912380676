"""The pace at which prints have run lately, in print hours a week, cut in the home zone."""

from datetime import timedelta
from functools import cache
from zoneinfo import ZoneInfo

from buildlog.facts.snapshot import Snapshot
from buildlog.methods.pace import WEEKS_TAKEN, Pace, pace, stand_in_hours
from buildlog.status.set_up import settle_set_ups
from buildlog.terms import Moment, moment, when


@cache
def home_zone(name: str) -> ZoneInfo:
    return ZoneInfo(name)


def measure_pace(snapshot: Snapshot, now: Moment) -> Pace:
    """Mean of the last 8 full weeks since the first print; a failed print ran too.

    With fewer than 3 full weeks, or when nothing was printed in them, the share of the week that is for building ×
    the printers that are up stands in.
    """
    zone, at = home_zone(snapshot.settings.home_zone), when(now)
    started = [job for job in snapshot.jobs if job.started_at is not None and job.started_at <= now]
    begin = min((job.started_at for job in started if job.started_at), default=now)
    earliest = moment(at - timedelta(weeks=WEEKS_TAKEN + 1))
    runs = [
        (when(job.started_at), min(at, when(job.ended_at)) if job.ended_at else at)
        for job in started
        if job.started_at is not None and (job.ended_at is None or job.ended_at > earliest)
    ]
    stand_in = _stand_in(snapshot, now)
    since = max(when(begin), at - timedelta(weeks=WEEKS_TAKEN + 2))
    measured = pace(runs, since, at, zone, stand_in)
    if measured.hours_per_week > 0:
        return measured
    return pace((), at, at, zone, stand_in)


def _stand_in(snapshot: Snapshot, now: Moment) -> float:
    """With no printer up, or none yet, one is reckoned with: something will have to print."""
    set_up = settle_set_ups(snapshot, now)
    live = [p for p in snapshot.printers if p.retired_at is None or p.retired_at > now]
    free = sum(not set_up[printer.id].is_down for printer in live)
    return stand_in_hours(max(1, free), snapshot.settings.not_building_percent / 100)
