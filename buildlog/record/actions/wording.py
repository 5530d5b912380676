"""How the sentences of actions say moments, weights and spans, and what a moment given in a wish must be."""

from itertools import pairwise
from zoneinfo import ZoneInfo

from buildlog.errors import BadWish, InTheFuture
from buildlog.record.tables.builds import Settings
from buildlog.record.writer import Work
from buildlog.terms import Moment, when


def local(work: Work, at: str) -> str:
    """A moment as the home zone's clock shows it, as ``Wed 25 Nov 13:00``."""
    settings = work.first(Settings)
    zone = ZoneInfo(settings.home_zone if settings else "UTC")
    return when(Moment(at)).astimezone(zone).strftime("%a %d %b %H:%M")


def grams(mg: int) -> str:
    return f"{mg / 1000:.0f} g" if mg >= 10_000 else f"{mg / 1000:.1f} g"


def hours(minutes: int) -> str:
    return f"{minutes // 60}:{minutes % 60:02d} h"


def refuse_future(work: Work, *moments: Moment | None) -> None:
    """What has happened cannot lie after the moment of recording."""
    for at in moments:
        if at is not None and at > work.recorded_at:
            raise InTheFuture(local(work, at))


def refuse_disorder(work: Work, *steps: tuple[str, str, str | None]) -> None:
    """(field, what it is, when) in the order in which they must have happened; unknown ones are passed over."""
    known = [(field, what, at) for field, what, at in steps if at is not None]
    for (_, earlier, before), (field, later, after) in pairwise(known):
        if after < before:
            raise BadWish(
                (
                    (
                        field,
                        f"it {later} {local(work, after)}, before it {earlier} {local(work, before)}: "
                        "put one of the two right",
                    ),
                )
            )
