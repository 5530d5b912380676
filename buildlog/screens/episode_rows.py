"""The lines of Episode, section by section, from a Status."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from buildlog.report.answers.story import before
from buildlog.report.done import what_was_done
from buildlog.report.goals import goal_name
from buildlog.report.period import episodes_of, period_of
from buildlog.screens.lines import BETWEEN, line, section
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.rows import Cell, GridRow, SpanCell
from buildlog.screens.widgets.tones import Tone
from buildlog.status.goals import running_episodes
from buildlog.status.shots import carried_over_from, shots_for
from buildlog.wording import count, day, day_and_clock, soon

if TYPE_CHECKING:
    from collections.abc import Iterator

    from buildlog.facts.builds import Build, Episode, Goal
    from buildlog.facts.story import Promise, ViewerQuestion
    from buildlog.status.milestones import MilestoneState
    from buildlog.status.shots import ShotStanding
    from buildlog.status.status import Status

SHOT_TONES = {"to film": Tone.PLAIN, "filmed": Tone.CAUTION, "footage safe": Tone.GOOD, "gone on without": Tone.FAINT}


@dataclass(frozen=True, slots=True)
class Shown:
    """The build and the episode in view; without an episode the build has none yet."""

    build: Build
    episode: Episode | None


def running(status: Status, build: Build) -> Episode | None:
    """The episode that films next, or else the last one; None where the build has none."""
    found = running_episodes(status.snapshot, status.now).get(build.id)
    return found or next(reversed(episodes_of(status.snapshot, build.id)), None)


def headline(status: Status, shown: Shown) -> list[Fact]:
    """Which episode, when it films, goals reached, what is still to film."""
    episode, zone = shown.episode, status.snapshot.settings.home_zone
    if episode is None:
        return [Fact(shown.build.code, "no episode yet")]
    facts = [Fact(f"{shown.build.code} {episode.number}", episode.title or "episode")]
    if episode.closed_at is not None:
        facts.append(Fact("closed", day(episode.closed_at, zone)))
    else:
        films = "filmed" if episode.films_at <= status.now else "films"
        facts.append(Fact(films, soon(episode.films_at, status.now, zone)))
    goals = _goals_of(status, episode)
    facts.append(Fact("goals", f"{sum(g.ticked_at is not None for g in goals)} of {len(goals)}"))
    shots = shots_for(status.snapshot, episode, status.now)
    to_film = sum(one.state.value == "to film" for one in shots)
    to_look = sum(one.state.value == "filmed" for one in shots)
    facts.append(Fact("to film", str(to_film)))
    return facts + ([Fact("to look at", str(to_look), Tone.CAUTION)] if to_look else [])


def episode_rows(status: Status, shown: Shown) -> list[GridRow]:
    """Keys ``goal:ID``, ``shot:ID``, ``viewer question:ID``, ``promise:ID``, ``milestone:ID``."""
    episode = shown.episode
    if episode is None:
        return []
    return [
        *_goals(status, episode),
        *_shots(status, episode),
        *_carried(status, episode),
        *_viewers(status, shown.build, episode),
        *_promises(status, shown.build),
        *_done(status, shown.build, episode),
        *_days(status, shown.build),
    ]


def _goals_of(status: Status, episode: Episode) -> list[Goal]:
    return [g for g in status.snapshot.goals if g.episode_id == episode.id and g.retired_at is None]


def _goals(status: Status, episode: Episode) -> list[GridRow]:
    rows = [_goal(status, goal) for goal in _goals_of(status, episode)]
    nothing = line("goals:none", "", Cell("no goal yet", Tone.FAINT))
    return section("goals", "Goals", rows or [nothing])


def _goal(status: Status, goal: Goal) -> GridRow:
    reached = goal.ticked_at is not None
    when = day(goal.ticked_at, status.snapshot.settings.home_zone) if goal.ticked_at is not None else ""
    state = Cell("reached", Tone.GOOD) if reached else Cell("open")
    return line(f"goal:{goal.id}", state, goal_name(status.snapshot, goal), when)


def _shots(status: Status, episode: Episode) -> list[GridRow]:
    rows = [_shot(one) for one in shots_for(status.snapshot, episode, status.now)]
    nothing = line("shots:none", "", Cell("no shot yet", Tone.FAINT))
    return section("shots", "Shots", rows or [nothing])


def _shot(one: ShotStanding) -> GridRow:
    spans = [(one.shot.what, Tone.PLAIN)]
    if one.step is not None:
        holds = one.step.cannot_be_undone and one.is_open
        spans.append((f"{BETWEEN}before {before(one)}", Tone.ACCENT if holds else Tone.FAINT))
    if one.carried_over and one.planned is not None:
        spans.append((f"{BETWEEN}carried over from {one.planned.number}", Tone.FAINT))
    state = Cell(one.state.value, SHOT_TONES[one.state.value])
    return line(f"shot:{one.shot.id}", one.shot.code, SpanCell(tuple(spans)), state)


def _carried(status: Status, episode: Episode) -> list[GridRow]:
    """Of a closed episode what went on to the next one."""
    rows = [
        line(f"carried:{shot.id}", shot.code, Cell(shot.what, Tone.FAINT))
        for shot in carried_over_from(status.snapshot, episode)
    ]
    return section("carried", "Shots carried over when it was closed", rows)


def _viewers(status: Status, build: Build, episode: Episode) -> list[GridRow]:
    """Those that wait, and those answered in this episode."""
    rows = [
        _viewer(status, q)
        for q in status.snapshot.viewer_questions
        if q.build_id == build.id
        and q.retired_at is None
        and (q.answered_at is None or q.answered_episode_id == episode.id)
    ]
    return section("viewers", "Viewers asked", rows)


def _viewer(status: Status, q: ViewerQuestion) -> GridRow:
    numbers = {episode.id: episode.number for episode in status.snapshot.episodes}
    under = numbers.get(q.asked_episode_id or 0)
    spans = [(f"{q.who or 'somebody'}: {q.text}", Tone.PLAIN)]
    spans += [(f"{BETWEEN}{q.answer}", Tone.GOOD)] if q.answer else []
    return line(
        f"viewer question:{q.id}", q.code, SpanCell(tuple(spans)), f"under {under}" if under is not None else ""
    )


def _promises(status: Status, build: Build) -> list[GridRow]:
    open_ones = [
        p for p in status.snapshot.promises if p.build_id == build.id and p.retired_at is None and p.kept_at is None
    ]
    return section("promises", "Promised", [_promise(status, promise) for promise in open_ones])


def _promise(status: Status, promise: Promise) -> GridRow:
    gave = f"{BETWEEN}for {promise.supplied}" if promise.supplied else ""
    told = SpanCell(((f"{promise.who}: {promise.promised}", Tone.PLAIN), (gave, Tone.FAINT)))
    by = day(promise.due_at, status.snapshot.settings.home_zone) if promise.due_at is not None else ""
    return line(f"promise:{promise.id}", promise.code, told, by)


def _done(status: Status, build: Build, episode: Episode) -> Iterator[GridRow]:
    """What was done, told from dated facts, under a heading for each kind."""
    period = period_of(status.snapshot, build, status.now, str(episode.number))
    for heading, lines in what_was_done(status.snapshot, build.id, period):
        rows = [line(f"done:{heading}-{index}", "", text) for index, text in enumerate(lines)]
        yield from section(f"done-{heading}", f"Done: {heading.lower()}", rows)


def _days(status: Status, build: Build) -> list[GridRow]:
    """Dated things to make, of this build and shared ones."""
    states = [m for m in status.outlook.milestones if m.build_id in (None, build.id)]
    return section("days", "Days to make", [_milestone(status, state) for state in states])


def _milestone(status: Status, state: MilestoneState) -> GridRow:
    zone = status.snapshot.settings.home_zone
    left = "today" if state.days_left == 0 else f"in {count(state.days_left, 'day')}"
    spans = ((state.name, Tone.PLAIN), (f"{BETWEEN}{'hard' if state.hard else 'soft'}", Tone.FAINT))
    when = left if state.days_left >= 0 else day_and_clock(state.due_at, zone)
    return line(f"milestone:{state.milestone_id}", day(state.due_at, zone), SpanCell(spans), when)
