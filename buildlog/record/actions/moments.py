"""How the sentences of actions say moments, and what a moment given in a wish must be."""

from itertools import pairwise

from buildlog.errors import BadWish, InTheFuture
from buildlog.record.tables.builds import Settings
from buildlog.record.writer import Work
from buildlog.terms import Moment
from buildlog.wording import dated


def local(work: Work, at: str) -> str:
    """A moment by the home zone's clock, as ``Wed 25 Nov 13:00``; with its year where that is not this one."""
    settings = work.first(Settings)
    return dated(Moment(at), work.recorded_at, settings.home_zone if settings else "UTC")


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
