"""Moments in words: ``2026-11-25 14:00``, ``yesterday 23:10``, ``-6h``, ``Tue 22:10``, ``-3d 21:30``, ``+14d``.

Words without a zone are of the home zone. A day without a time of day is noon, and the present moment where
noon of today is still to come. Days go by the clock on the wall, hours and minutes by what passes. A time of
day that the change of the clock leaves out counts as if the clock had not changed yet (02:30 as 03:30); one
that comes twice is the first: write the second with its offset, as ``2026-10-25T02:30+01:00``.
"""

import re
from collections.abc import Callable, Iterator
from contextlib import suppress
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from buildlog.proposals.field import quoted
from buildlog.terms import FIRST_YEAR, LAST_YEAR, Moment, moment, when

MomentReader = Callable[[str, bool], Moment]
"""Reads a moment from a text; the second argument tells whether it may lie ahead."""

WAYS = (
    "write 2026-11-25 14:00, 2026-11-25, 25 Nov 14:00, today 14:00, yesterday 23:10, 22:10, Tue 22:10, now, "
    "-6h, -2d 3h, -45m or -3d 21:30; for what lies ahead also tomorrow 9:00, +14d and +14d 9:00"
)
LATELY_DAYS = 60
"""Our choice: where a moment may lie ahead, a day and month without a year means a day so short ago."""
NEXT_LEAP_YEARS = 9
_NOON = time(12)
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_SPAN = re.compile(r"([+-])\s*(?:(\d{1,4})\s*d)?\s*(?:(\d{1,5})\s*h)?\s*(?:(\d{1,6})\s*m(?:in)?)?")
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}))?")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_DAYS_OFF = re.compile(r"[+-]\d{1,4}(?=d$)")
_DAY_MONTH = re.compile(r"(\d{1,2})\s+([a-z]{3})[a-z]*(?:\s+(\d{4}))?")
_STORED = re.compile(r"\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}Z")


def moment_reader(now: Moment, zone: str) -> MomentReader:
    """A reader for forms, commands and files, as of ``now`` in the home zone."""
    return lambda text, future: read_moment(text, now, zone, future)


def stored_moment(text: str, future: bool = False) -> Moment:  # noqa: ARG001 - it knows no present
    """A moment as the record writes it; what reads moments where no present is known."""
    if not _STORED.fullmatch(text):
        raise ValueError(f"«{text}» is no moment: write it as 2026-11-25T13:03:00Z")
    return moment(datetime.fromisoformat(text))


def read_moment(text: str, now: Moment, zone: str, future: bool = False) -> Moment:
    """The moment that is meant; ValueError lists the ways to write one, or says that it lies ahead."""
    home = ZoneInfo(zone)
    present = when(now).astimezone(home)
    wanted = " ".join(text.strip().lower().split())
    try:
        found = _span(wanted, present) or _iso(wanted, home) or _words(wanted, present, future)
    except (ValueError, OverflowError):
        found = None
    if found is None:
        raise ValueError(f"{quoted(text.strip())} is no moment: {WAYS}")
    if not FIRST_YEAR <= found.astimezone(UTC).year <= LAST_YEAR:
        raise ValueError(f"{quoted(text.strip())} is no moment that can be kept: from {FIRST_YEAR} to {LAST_YEAR}")
    if not future and found > present:
        raise ValueError(f"{quoted(text.strip())} is in the future ({found.astimezone(home):%a %Y-%m-%d %H:%M})")
    return moment(found)


def _span(text: str, present: datetime) -> datetime | None:
    """So long ago, or from now."""
    if text == "now":
        return present
    match = _SPAN.fullmatch(text)
    if match is None or not any(match.groups()[1:]):
        return None
    sign = -1 if match[1] == "-" else 1
    days, hours, minutes = (sign * int(match[group] or 0) for group in (2, 3, 4))
    same_clock = (present + timedelta(days=days)).astimezone(UTC)
    return same_clock + timedelta(hours=hours, minutes=minutes)


def _iso(text: str, home: ZoneInfo) -> datetime | None:
    """A full date and time, of the home zone where it names none."""
    if not re.match(r"\d{4}-\d{2}-\d{2}[t ]\d{2}", text):
        return None
    read = datetime.fromisoformat(re.sub(r" (?=[+-])", "", text.upper()))
    return (read if read.tzinfo else read.replace(tzinfo=home)).astimezone(UTC)


def _words(text: str, present: datetime, future: bool) -> datetime | None:
    """A day, a time of day, or both."""
    day_text, clock = _split(text)
    if not day_text:
        if clock is None:
            return None
        return _nearest(present.date(), clock, present, timedelta(days=1), future)
    weekdays = [number for number, name in enumerate(_DAYS) if name.startswith(day_text)]
    if len(day_text) >= 3 and weekdays:
        back = (present.weekday() - weekdays[0]) % 7
        day = present.date() - timedelta(days=back)
        return _nearest(day, clock or _NOON, present, timedelta(days=7), future)
    day_read = _day(day_text, present.date(), future)
    if day_read is None:
        return None
    found = _at(day_read, clock or _NOON, present)
    if clock is None and not future and day_read == present.date():
        return min(found, present)
    return found


def _split(text: str) -> tuple[str, time | None]:
    day, _, last = text.rpartition(" ")
    match = _CLOCK.fullmatch(last)
    if match is None:
        return text, None
    return day.removesuffix(" at").rstrip(","), time(int(match[1]), int(match[2]), int(match[3] or 0))


def _day(text: str, today: date, future: bool) -> date | None:
    near = {"yesterday": -1, "today": 0, "tomorrow": 1}.get(text)
    if near is not None:
        return today + timedelta(days=near)
    days_off = _DAYS_OFF.match(text)
    if days_off:
        return today + timedelta(days=int(days_off[0]))
    if _DATE.fullmatch(text):
        return date.fromisoformat(text)
    match = _DAY_MONTH.fullmatch(text)
    if match is None:
        return None
    month = _MONTHS.index(match[2]) + 1
    if match[3]:
        return date(int(match[3]), month, int(match[1]))
    day = date(today.year, month, int(match[1]))
    if future:
        lately = today - timedelta(days=LATELY_DAYS)
        return next(d for d in _each_year(day, today.year) if d >= lately)
    return day if day <= today else day.replace(year=today.year - 1)


def _each_year(day: date, year: int) -> Iterator[date]:
    """The same day of the year before, of this one and of those to come; a leap day only where there is one."""
    for each in range(year - 1, year + NEXT_LEAP_YEARS):
        with suppress(ValueError):
            yield day.replace(year=each)


def _nearest(day: date, clock: time, present: datetime, step: timedelta, future: bool) -> datetime:
    """The last time that the clock showed this on such a day, or the next time."""
    found = _at(day, clock, present)
    if future:
        return found if found > present else _at(day + step, clock, present)
    return found if found <= present else _at(day - step, clock, present)


def _at(day: date, clock: time, present: datetime) -> datetime:
    return datetime.combine(day, clock, present.tzinfo).astimezone(UTC)
