"""Weeks and recurring days in the home zone.

ISO 8601 weeks: they begin on Monday, and week 1 is the one that holds 4 January. Days and weeks begin at the
local midnight, so a week with a change of the clock has 167 or 169 hours. Recurrence rules are those of RFC
5545, expanded by dateutil; wall-clock times are kept across a change of the clock. Moments that come in need
a zone; those that go out are UTC.
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from itertools import takewhile
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from dateutil.rrule import rrule

_MOST_OCCURRENCES = 100_000
_RULE_PARTS = frozenset(
    {"FREQ", "UNTIL", "COUNT", "INTERVAL", "WKST", "BYSETPOS"}
    | {"BYSECOND", "BYMINUTE", "BYHOUR", "BYDAY", "BYMONTHDAY", "BYYEARDAY", "BYWEEKNO", "BYMONTH"}
)
_WEEK = timedelta(days=7)


class Week(NamedTuple):
    """One ISO week: `first_day` is its Monday; from `start` (UTC) up to, not including, `end` (UTC)."""

    first_day: date
    start: datetime
    end: datetime

    @property
    def label(self) -> str:
        return iso_week_label(self.first_day)

    @property
    def hours(self) -> float:
        return (self.end - self.start) / timedelta(hours=1)


def iso_week_label(day: date) -> str:
    """Year and week by ISO 8601, such as 2026-W48; the year is the one that holds the week's Thursday."""
    year, week, _ = day.isocalendar()
    return f"{year:04d}-W{week:02d}"


def local_moment(day: date, clock: time, zone: tzinfo) -> datetime:
    """The moment (UTC) at which a clock on the wall shows this. A time that the change of the clock leaves
    out counts as if the clock had not changed yet, one that comes twice is the first.
    """
    return datetime.combine(day, clock, zone).astimezone(UTC)


def local_day(moment: datetime, zone: tzinfo) -> date:
    """The day that it is at home at this moment."""
    if moment.tzinfo is None:
        raise ValueError(f"a moment needs a zone: {moment}")
    return moment.astimezone(zone).date()


def week_of(moment: datetime, zone: tzinfo) -> Week:
    """The ISO week that holds this moment at home."""
    day = local_day(moment, zone)
    return _week_from(day - timedelta(days=day.weekday()), zone)


def weeks_between(first: datetime, last: datetime, zone: tzinfo) -> tuple[Week, ...]:
    """All weeks from the one that holds `first` to the one that holds `last`."""
    monday, final = week_of(first, zone).first_day, week_of(last, zone).first_day
    count = (final - monday) // _WEEK + 1
    return tuple(_week_from(monday + number * _WEEK, zone) for number in range(count))


def occurrences(rule: str, start: datetime, zone: tzinfo, between: tuple[datetime, datetime]) -> tuple[datetime, ...]:
    """The moments of a recurrence rule of RFC 5545, such as FREQ=WEEKLY;BYDAY=FR.

    `start` gives the time of day where the rule does not, and nothing lies before it; it counts itself only
    when it follows the rule. `between` is (from, up to but not including).
    """
    earliest, latest = between
    moments = takewhile(lambda moment: moment < latest, _expanded(rule, start, zone))
    return tuple(moment for moment in moments if moment >= earliest)


def next_occurrence(rule: str, start: datetime, zone: tzinfo, after: datetime) -> datetime | None:
    """The first moment of the rule that lies after `after`; None when the rule has ended."""
    return next((moment for moment in _expanded(rule, start, zone) if moment > after), None)


def _week_from(monday: date, zone: tzinfo) -> Week:
    midnight = time()
    return Week(monday, local_moment(monday, midnight, zone), local_moment(monday + _WEEK, midnight, zone))


def _expanded(rule: str, start: datetime, zone: tzinfo) -> Iterator[datetime]:
    if start.tzinfo is None:
        raise ValueError(f"a moment needs a zone: {start}")
    try:
        for count, moment in enumerate(_parsed(rule, start.astimezone(zone))):
            if count >= _MOST_OCCURRENCES:
                raise ValueError(f"it gives more than {_MOST_OCCURRENCES} moments, make it coarser")
            yield moment.astimezone(UTC)
    except (ValueError, TypeError) as error:  # dateutil finds some wrong parts only while it counts
        raise ValueError(f"{rule!r} cannot be used as a recurrence rule of RFC 5545: {error}") from error


def _parsed(rule: str, local_start: datetime) -> "rrule":
    from dateutil.rrule import rrule, rrulestr  # few ask for recurring days, and it is slow to load

    parts = dict(part.partition("=")[::2] for part in rule.strip().upper().removeprefix("RRULE:").split(";"))
    unknown = parts.keys() - _RULE_PARTS
    if unknown or "FREQ" not in parts:
        raise ValueError("it needs FREQ and known parts, such as FREQ=WEEKLY;BYDAY=FR")
    if not parts.get("INTERVAL", "1").isdecimal() or int(parts.get("INTERVAL", "1")) < 1:
        raise ValueError(f"INTERVAL={parts['INTERVAL']} must be a whole number from 1")
    parsed = rrulestr(";".join(f"{name}={value}" for name, value in parts.items()), dtstart=local_start)
    if not isinstance(parsed, rrule):
        raise ValueError("it must be one rule")
    return parsed
