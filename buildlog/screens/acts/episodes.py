"""Plan and close episodes, add and tick goals, write the week's text to a file."""

from __future__ import annotations

import asyncio
from datetime import timedelta
from typing import TYPE_CHECKING

from buildlog.proposals.episodes import AddGoals, CloseEpisode, PlanEpisode, TickGoal
from buildlog.screens.asking import ask_wish
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.dialogs.confirm import Confirm
from buildlog.terms import moment
from buildlog.wording import count, dated, home

if TYPE_CHECKING:
    from buildlog.facts.builds import Build, Episode
    from buildlog.screens.base import LiveScreen
    from buildlog.screens.episode_rows import Shown
    from buildlog.status.status import Status

DAYS_BETWEEN_FILMINGS = 7
NO_EPISODE = "There is no episode yet: {other_episode} plans one."


async def choose_episode(screen: LiveScreen, shown: Shown) -> tuple[int, int] | None:
    """(build, episode) of any that is not in view, the newest first, of the build in view first; or a new one."""
    from buildlog.report.period import episodes_of
    from buildlog.status.needs_order import builds_in_order

    if screen.status is None:
        return None
    snapshot = screen.status.snapshot
    builds = sorted(builds_in_order(snapshot), key=lambda build: build.id != shown.build.id)
    choices = [
        _choice(screen.status, build, episode)
        for build in builds
        for episode in reversed(episodes_of(snapshot, build.id))
        if episode != shown.episode
    ]
    choices.insert(0, Choice((shown.build.id, 0), "a new one", f"plan the next episode of {shown.build.code}"))
    chosen = await screen.pick("Show which episode?", choices)
    if chosen is not None and not chosen[1]:
        await plan_episode(screen, shown.build)
        return None
    return chosen


def _choice(status: Status, build: Build, episode: Episode) -> Choice[tuple[int, int]]:
    zone = status.snapshot.settings.home_zone
    closed = "closed" if episode.closed_at is not None else f"films {dated(episode.films_at, status.now, zone)}"
    told = ", ".join(filter(None, (episode.title, closed)))
    return Choice((build.id, episode.id), f"{build.code} {episode.number}", told)


async def plan_episode(screen: LiveScreen, build: Build) -> None:
    asked = await _ask_next(screen, build, f"The next episode of {build.code}")
    if asked is not None:
        await screen.wish(asked)


async def _ask_next(screen: LiveScreen, build: Build, title: str) -> PlanEpisode | None:
    """The next episode, a week after the last one unless another moment is typed."""
    from buildlog.report.period import episodes_of

    status = screen.status
    if status is None:
        return None
    last = next(reversed(episodes_of(status.snapshot, build.id)), None)
    values: dict[str, object] = {"build": build.code}
    if last is not None:
        films = home(last.films_at, status.snapshot.settings.home_zone) + timedelta(days=DAYS_BETWEEN_FILMINGS)
        values["films_at"] = moment(films)
    asked = await ask_wish(
        screen.live,
        PlanEpisode,
        title,
        values=values,
        only=("films_at", "title"),
        when_too=False,
    )
    return None if asked is None else asked.wish


async def add_goal(screen: LiveScreen, shown: Shown) -> None:
    if shown.episode is None:
        screen.live.tell(NO_EPISODE)
        return
    values = {"build": shown.build.code, "number": shown.episode.number}
    await screen.ask(
        AddGoals, f"A goal for episode {shown.episode.number}", values=values, only=("goals",), when_too=False
    )


async def tick_goal(screen: LiveScreen, shown: Shown, goal_id: int | None) -> None:
    """The goal under the cursor, or one that is open; one that is reached is opened again."""
    from buildlog.report.goals import goal_name

    episode, status = shown.episode, screen.status
    if episode is None or status is None:
        screen.live.tell(NO_EPISODE)
        return
    goals = [g for g in status.snapshot.goals if g.episode_id == episode.id and g.retired_at is None]
    here = [g for g in goals if g.id == goal_id] or [g for g in goals if g.ticked_at is None]
    choices = [Choice(g, goal_name(status.snapshot, g)) for g in here]
    goal = await screen.choose("Which goal is reached?", choices, empty="No goal is open: {add_goal} adds one.")
    if goal is not None:
        untick = goal.ticked_at is not None
        tick = TickGoal(build=shown.build.code, goal=f"#{goal.id}", number=episode.number, untick=untick)
        await screen.wish(tick)


async def close_episode(screen: LiveScreen, shown: Shown) -> None:
    """Close it with its text, what is open carried over; the next one is planned with it where there is none."""
    episode, status = shown.episode, screen.status
    if episode is None or status is None:
        screen.live.tell(NO_EPISODE)
        return
    if episode.closed_at is not None:
        screen.live.tell(f"Episode {episode.number} is closed already.")
        return
    planned = None
    if not _later_open(status, episode):
        why = (
            f"Closing episode {episode.number} of {shown.build.code}: what is open goes on to the next episode, "
            "and none is planned yet. When does that one film? Nothing is closed before you have said yes."
        )
        planned = await _ask_next(screen, shown.build, why)
        if planned is None:
            return
    will = _what_closing_does(status, episode)
    title = f"Close episode {episode.number} of {shown.build.code}?"
    if not await screen.app.push_screen_wait(Confirm(title, will, yes="close it", no="not yet")):
        return
    document = await asyncio.to_thread(_text_of, status, shown.build)
    close = CloseEpisode(build=shown.build.code, number=episode.number, carry_over=True, document=document)
    if planned is None:
        await screen.wish(close)
        return
    films = dated(planned.films_at, status.now, status.snapshot.settings.home_zone)
    summary = f"Closed episode {episode.number} of {shown.build.code}; the next one films {films}."
    await screen.live.record_all([(planned, None), (close, None)], summary)


def _text_of(status: Status, build: Build) -> str:
    from buildlog.report.standing import standing

    return standing(status, build)


def _later_open(status: Status, episode: Episode) -> bool:
    return any(
        e.build_id == episode.build_id and e.number > episode.number and e.closed_at is None and e.retired_at is None
        for e in status.snapshot.episodes
    )


def _what_closing_does(status: Status, episode: Episode) -> list[str]:
    from buildlog.status.shots import shots_for

    goals = [g for g in status.snapshot.goals if g.episode_id == episode.id and g.retired_at is None]
    open_goals = sum(goal.ticked_at is None for goal in goals)
    to_film = sum(one.state.value == "to film" for one in shots_for(status.snapshot, episode, status.now))
    told = [f"{len(goals) - open_goals} of {count(len(goals), 'goal')} reached."]
    if open_goals:
        told.append(f"Carried over: {count(open_goals, 'open goal')}.")
    if to_film:
        told.append(f"Carried over: {count(to_film, 'shot')} not filmed.")
    return [*told, "How things stand is kept with it, as text."]


async def write_week(screen: LiveScreen, shown: Shown) -> None:
    """The text as it is shown, into a file that is named."""
    from buildlog.report.week import week_text
    from buildlog.screens.acts.files import write_file

    episode, status = shown.episode, screen.status
    if status is None:
        return
    name = f"{shown.build.code}-episode-{episode.number}" if episode is not None else f"{shown.build.code}-week"
    of = str(episode.number) if episode is not None else None
    text = await asyncio.to_thread(week_text, status, shown.build.code, of)
    await write_file(screen, "Write the week's text", f"{name.lower()}.md", text)
