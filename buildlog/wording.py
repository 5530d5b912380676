"""How figures are said to a person: the same number reads the same in a sentence, on a screen and in the report."""

from collections.abc import Sequence
from datetime import datetime
from functools import lru_cache
from zoneinfo import ZoneInfo

from buildlog.terms import Moment, Side, Unit, when

Zone = str | ZoneInfo

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
FAR_DAYS = 300
"""Our choice: so far off a day does not tell its year by itself."""
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def place_name(assembly: str, side: Side | None, ordinals: Sequence[int]) -> str:
    """``TOE R.2``: the assembly, the side where it has one, and the ordinals on the way down that count."""
    numbers = ".".join(map(str, ordinals))
    of_side = side.value if side in (Side.LEFT, Side.RIGHT) else ""
    return " ".join(filter(None, (assembly, f"{of_side}.{numbers}" if of_side and numbers else of_side or numbers)))


def grams(mg: float) -> str:
    """``412 g`` below ten kilograms, ``12.4 kg`` from there; ``3.5 g`` where tenths matter."""
    if abs(mg) >= 10_000_000:
        return f"{mg / 1_000_000:.1f} kg"
    return f"{mg / 1000:.0f} g" if abs(mg) >= 10_000 or mg == 0 else f"{mg / 1000:.1f} g"


def hours(minutes: float) -> str:
    """``2:05 h`` below a hundred hours, ``312 h`` from there."""
    whole = round(minutes)
    sign, whole = ("-" if whole < 0 else ""), abs(whole)
    return f"{sign}{whole // 60}:{whole % 60:02d} h" if whole < 6000 else f"{sign}{whole / 60:.0f} h"


def money(minor: int, currency: str) -> str:
    return f"{minor / 100:.2f} {currency}"


@lru_cache(maxsize=4096)  # a list tells the same moments again and again
def home(at: Moment, zone: Zone) -> datetime:
    """The moment as the home zone's clock and calendar show it."""
    return when(at).astimezone(ZoneInfo(zone) if isinstance(zone, str) else zone)


def day(at: Moment, zone: Zone) -> str:
    """``Wed 25 Nov``, in English whatever the machine's language is."""
    there = home(at, zone)
    return f"{DAYS[there.weekday()]} {there.day} {MONTHS[there.month - 1]}"


def clock(at: Moment, zone: Zone) -> str:
    return f"{home(at, zone):%H:%M}"


def day_and_clock(at: Moment, zone: Zone) -> str:
    """``Wed 25 Nov 13:00``."""
    return f"{day(at, zone)} {clock(at, zone)}"


def dated(at: Moment, now: Moment, zone: Zone) -> str:
    """``Wed 25 Nov 13:00`` this year, ``Mon 25 Nov 2024 13:00`` in another one."""
    year = home(at, zone).year
    of_year = "" if year == home(now, zone).year else f" {year}"
    return f"{day(at, zone)}{of_year} {clock(at, zone)}"


def near(at: Moment, now: Moment, zone: Zone) -> str:
    """``13:00`` today, ``tomorrow 08:00``, ``yesterday 22:10``; else its day, with the year if it is another."""
    apart = (home(at, zone).date() - home(now, zone).date()).days
    words = {0: "", 1: "tomorrow ", -1: "yesterday "}
    return f"{words[apart]}{clock(at, zone)}" if apart in words else dated(at, now, zone)


def soon(at: Moment, now: Moment, zone: Zone) -> str:
    """``20:00`` today, ``Thu 08:00`` within a week, ``3 Dec 08:00`` further off, ``3 Dec 2024`` a year off."""
    there, here = home(at, zone), home(now, zone)
    days = (there.date() - here.date()).days
    if days == 0:
        return clock(at, zone)
    if abs(days) > FAR_DAYS:
        return f"{there.day} {MONTHS[there.month - 1]} {there.year}"
    named = DAYS[there.weekday()] if abs(days) < 7 else f"{there.day} {MONTHS[there.month - 1]}"
    return f"{named} {clock(at, zone)}"


def is_before(at: Moment, now: Moment, zone: Zone) -> bool:
    """Whether the day of a moment is over."""
    return home(at, zone).date() < home(now, zone).date()


def span(minutes: float) -> str:
    """How long in words: ``40 min``, ``5 h``, ``3 days``."""
    if abs(minutes) < 90:
        return f"{round(minutes)} min"
    return f"{round(minutes / 60)} h" if abs(minutes) < 36 * 60 else f"{round(minutes / 1440)} days"


def mm(um: int) -> str:
    """``0.4 mm``."""
    return f"{um / 1000:g} mm"


def few(names: Sequence[str], most: int = 6) -> str:
    """``FL01, FL02 and 3 more``."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(names[:most]) + more


def so_many(quantity: int, unit: Unit = Unit.EACH) -> str:
    """``×2`` of what is counted, ``20000 mm`` of what is measured; stands behind the code."""
    return f"×{quantity}" if unit is Unit.EACH else f"{quantity} {unit}"


def count(number: int, noun: str, plural: str = "") -> str:
    """``1 piece``, ``3 pieces``."""
    return f"{number} {noun if number == 1 else plural or noun + 's'}"
