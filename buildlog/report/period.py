"""Which stretch of time a week's text covers: an episode, from one filming moment to the next, or the ISO week."""

import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from buildlog.errors import Refused
from buildlog.facts.builds import Build, Episode
from buildlog.facts.snapshot import Snapshot
from buildlog.terms import FIRST_YEAR, LAST_YEAR, Moment, moment
from buildlog.wording import home

_NUMBER = re.compile(r"\d{1,9}")
_WEEK = re.compile(r"(\d{4})-?W(\d{1,2})", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Period:
    """From ``since`` (None: the beginning) up to ``until``, and the episode it is, if any."""

    title: str
    since: Moment | None
    until: Moment
    episode: Episode | None

    def holds(self, at: Moment | None) -> bool:
        return at is not None and at <= self.until and (self.since is None or at > self.since)


def episodes_of(snapshot: Snapshot, build_id: int) -> list[Episode]:
    """Live episodes of a build by filming moment."""
    live = (e for e in snapshot.episodes if e.build_id == build_id and e.retired_at is None)
    return sorted(live, key=lambda e: (e.films_at, e.number))


def period_of(snapshot: Snapshot, build: Build, now: Moment, of: str | None = None) -> Period:
    """The running episode, or the named one (``14``), or an ISO week (``2026-W48``), or the week of a day."""
    episodes = episodes_of(snapshot, build.id)
    if of is None:
        return _running(snapshot, episodes, now)
    wanted = of.strip().lower().removeprefix("episode").strip()
    if _NUMBER.fullmatch(wanted):
        found = [e for e in episodes if e.number == int(wanted)]
        if not found:
            known = ", ".join(str(e.number) for e in episodes) or "none"
            raise Refused(f"{build.code} has no episode {wanted}; it has {known}.")
        return _episode(snapshot, episodes, found[0], now)
    return _week(snapshot, _day_in(of), now)


def _running(snapshot: Snapshot, episodes: list[Episode], now: Moment) -> Period:
    """The first episode still to be filmed or not closed; the ISO week of now where a build has none."""
    coming = [e for e in episodes if e.films_at > now] or [e for e in episodes if e.closed_at is None]
    if not coming:
        return _week(snapshot, home(now, snapshot.settings.home_zone).date(), now)
    return _episode(snapshot, episodes, coming[0], now)


def _episode(snapshot: Snapshot, episodes: list[Episode], episode: Episode, now: Moment) -> Period:
    before = [e.films_at for e in episodes if e.films_at < episode.films_at]
    monday = _week_label(home(episode.films_at, snapshot.settings.home_zone).date())
    name = f" «{episode.title}»" if episode.title else ""
    until = min(now, episode.films_at)
    return Period(f"episode {episode.number}{name}, {monday}", before[-1] if before else None, until, episode)


def _week(snapshot: Snapshot, day: date, now: Moment) -> Period:
    zone = ZoneInfo(snapshot.settings.home_zone)
    monday = day - timedelta(days=day.weekday())
    start, end = (moment(datetime.combine(monday + timedelta(days=n), time(), zone)) for n in (0, 7))
    return Period(_week_label(day), start, min(now, end), None)


def _week_label(day: date) -> str:
    year, week, _ = day.isocalendar()
    return f"week {year}-W{week:02d}"


def _day_in(text: str) -> date:
    named = _WEEK.fullmatch(text.strip())
    try:
        day = date.fromisocalendar(int(named[1]), int(named[2]), 1) if named else date.fromisoformat(text.strip())
    except ValueError:
        day = date.min
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise Refused(f"«{text[:60]}» names no week: write an episode (14), a week (2026-W48) or a day (2026-11-25).")
    return day
