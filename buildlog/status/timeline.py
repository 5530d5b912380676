"""When work comes to be printed: its minutes laid end to end over the pace, in weeks at home."""

from bisect import bisect_right
from collections.abc import Sequence
from datetime import timedelta
from zoneinfo import ZoneInfo

from buildlog.facts.frozen import frozen
from buildlog.methods.weeks import Week, weeks_between
from buildlog.terms import Moment, moment, when

MOST_WEEKS = 156
"""Work later than three years on is told in the last week."""


@frozen
class Timeline:
    """``weeks`` begin with the running one, of which only the rest is left; ``first_minutes`` of print time fall into
    that, ``week_minutes`` into each other. ``ranks`` (ascending) and ``minutes_before`` tell how much print time
    comes before slots to print.
    """

    now: Moment
    weeks: tuple[Week, ...]
    first_minutes: float
    week_minutes: float
    ranks: Sequence[int]
    minutes_before: Sequence[float]

    def week_of(self, minutes_before: float) -> int:
        """Index of the week in which work begins that so many minutes come before (approximation: a print that goes
        on into the next week takes all its material in the first).
        """
        if minutes_before < self.first_minutes:
            return 0
        return min(len(self.weeks) - 1, 1 + int((minutes_before - self.first_minutes) / self.week_minutes))

    def moment_after(self, minutes: float) -> Moment:
        """When so many minutes have been printed, each week evenly."""
        index = self.week_of(minutes)
        week = self.weeks[index]
        start = when(self.now) if index == 0 else week.start
        done = minutes if index == 0 else minutes - self.first_minutes - (index - 1) * self.week_minutes
        whole = self.first_minutes if index == 0 else self.week_minutes
        share = min(1.0, done / whole) if whole else 1.0
        return moment((start + share * (week.end - start)).replace(microsecond=0))

    def moment_of_rank(self, rank: int) -> Moment:
        """When printing reaches this place of the allotment order."""
        index = bisect_right(self.ranks, rank) - 1
        return self.moment_after(self.minutes_before[index] if index >= 0 else 0.0)


def draw_timeline(
    now: Moment,
    zone: ZoneInfo,
    hours_per_week: float,
    total_minutes: float,
    ranks: Sequence[int],
    minutes_before: Sequence[float],
) -> Timeline:
    """As many weeks as the work takes at the pace, and at least three."""
    at = when(now)
    week_minutes = hours_per_week * 60
    count = min(MOST_WEEKS, 3 + int(total_minutes / week_minutes))
    weeks = weeks_between(at, at + timedelta(weeks=count - 1), zone)
    first = week_minutes * ((weeks[0].end - at) / (weeks[0].end - weeks[0].start))
    return Timeline(now, weeks, first, week_minutes, ranks, minutes_before)
