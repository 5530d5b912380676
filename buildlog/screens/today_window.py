"""What was typed as leaving and back, as moments, and how to say it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from buildlog.screens.today_rows import Window, tonight
from buildlog.terms import Moment, minutes_between
from buildlog.wording import near, span

if TYPE_CHECKING:
    from buildlog.status.status import Status


@dataclass(frozen=True, slots=True)
class Read:
    """The window, what is said of it, whether something was not understood, and what stands in for nothing."""

    window: Window
    told: str
    wrong: bool
    usual: tuple[str, str]


def read_window(status: Status, leaving: str, back: str) -> Read:
    """From now to the start of the next day, where nothing else was typed."""
    zone = status.snapshot.settings.home_zone
    now, morning = status.now, tonight(status)[1]
    usual = ("now", near(morning, now, zone))

    def read(text: str, otherwise: Moment) -> Moment:
        if not text.strip():
            return otherwise
        from buildlog.proposals.moments import read_moment  # data on screen waits for nothing that may not be typed

        return max(now, read_moment(text, now, zone, future=True))

    try:
        from_at, until = read(leaving, now), read(back, morning)
    except ValueError:
        return Read((now, morning), "as 18:00, +2h, Sat 8:00", True, usual)
    if until <= from_at:
        return Read((from_at, from_at), "back comes before leaving", True, usual)
    return Read((from_at, until), span(minutes_between(from_at, until)), False, usual)
