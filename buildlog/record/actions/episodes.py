"""Planning and closing episodes, and their goals."""

from sqlmodel import col

from buildlog.errors import BadWish, NotFound, Refused
from buildlog.proposals import episodes as wishes
from buildlog.proposals.forms_build import Episode as EpisodeForm
from buildlog.proposals.forms_build import Goal as GoalForm
from buildlog.proposals.goal_lines import GoalLine
from buildlog.proposals.recorded import form_of_row
from buildlog.record.actions.moments import local
from buildlog.record.actions.places import by_prefix
from buildlog.record.actions.storing.by_noun import storing_of
from buildlog.record.actions.storing.rows import WorkRows
from buildlog.record.tables.builds import Build, Episode, Goal
from buildlog.record.writer import Work
from buildlog.terms import GoalKind, Side


def plan_episode(wish: wishes.PlanEpisode, work: Work) -> str:
    build = by_prefix(work, Build, wish.build, "build")
    known = work.all(Episode, Episode.build_id == build.id)
    number = wish.number if wish.number is not None else max((e.number for e in known), default=0) + 1
    form = EpisodeForm(build=build.code, number=number, title=wish.title, films_at=wish.films_at)
    storing_of("episode", work).add(form)
    for goal in wish.goals:
        _add_goal(work, build, number, goal)
    return f"Planned episode {number} of {build.code}, films {local(work, wish.films_at)}{_told(wish.goals)}."


def add_goals(wish: wishes.AddGoals, work: Work) -> str:
    build, episode = _episode(work, wish.build, wish.number)
    for goal in wish.goals:
        _add_goal(work, build, episode.number, goal)
    return f"Episode {episode.number}{_told(wish.goals)}."


def set_goals(wish: wishes.SetGoals, work: Work) -> str:
    build, episode = _episode(work, wish.build, wish.number)
    standing = {str(_line(work, goal)): goal for goal in _goals(work, episode)}
    wanted = {str(goal): goal for goal in wish.goals}
    for text, row in standing.items():
        if text not in wanted:
            work.change(row, retired_at=work.at)
    for text, goal in wanted.items():
        if text not in standing:
            _add_goal(work, build, episode.number, goal)
    return f"Episode {episode.number}{_told(tuple(wanted.values()))}."


def tick_goal(wish: wishes.TickGoal, work: Work) -> str:
    _, episode = _episode(work, wish.build, wish.number)
    named = [(goal, str(_line(work, goal))) for goal in _goals(work, episode)]
    wanted = wish.goal.strip().lower()
    found = [(goal, text) for goal, text in named if wanted in (f"#{goal.id}", text.lower())]
    found = found or [(goal, text) for goal, text in named if text.lower().startswith(wanted)]
    if len(found) != 1:
        near = tuple(text for _, text in found or named)
        raise NotFound(f"goal of episode {episode.number}", wish.goal, near)
    goal, text = found[0]
    work.change(goal, ticked_at=None if wish.untick else work.at)
    return f"{'Not reached yet' if wish.untick else 'Reached'}: {text}."


def close_episode(wish: wishes.CloseEpisode, work: Work) -> str:
    build, episode = _episode(work, wish.build, wish.number, oldest=True)
    work.change(episode, closed_at=work.at, document=wish.document or None)
    carried = _carry_over(wish, work, build, episode) if wish.carry_over else 0
    told = f", {carried} goals carried over" if wish.carry_over else ""
    return f"Closed episode {episode.number} of {build.code}{told}."


def _carry_over(wish: wishes.CloseEpisode, work: Work, build: Build, episode: Episode) -> int:
    goals = [goal for goal in _goals(work, episode) if goal.ticked_at is None]
    if wish.carry is not None:
        goals = [goal for goal in goals if goal.id in wish.carry]
    later = work.first(
        Episode,
        Episode.build_id == build.id,
        Episode.number > episode.number,
        col(Episode.closed_at).is_(None),
        col(Episode.retired_at).is_(None),
        order_by=Episode.number,
    )
    if goals and later is None:
        raise Refused(f"There is no later episode of {build.code} to carry goals over to: plan it first.")
    if later is None:
        return 0
    standing = {str(_line(work, goal)) for goal in _goals(work, later)}
    lines = [line for goal in goals if str(line := _line(work, goal)) not in standing]
    for line in lines:
        _add_goal(work, build, later.number, line)
    return len(lines)


def _episode(work: Work, build_code: str, number: int | None, oldest: bool = False) -> tuple[Build, Episode]:
    """The open episode of that number; without one that which films next, or the oldest open one."""
    build = by_prefix(work, Build, build_code, "build")
    known = _live(work, build)
    if number is not None:
        found = [episode for episode in known if episode.number == number]
        if not found:
            raise NotFound(f"episode of {build.code}", str(number), tuple(str(e.number) for e in known[-3:]))
        if found[0].closed_at is not None:
            since = local(work, found[0].closed_at)
            raise Refused(f"Episode {number} of {build.code} is closed since {since}: undo the closing.")
        return build, found[0]
    open_ones = open_episodes(work, build)
    if not open_ones:
        raise BadWish((("number", f"{build.code} has no open episode: plan one first"),))
    return build, min(open_ones, key=lambda e: e.films_at) if oldest else open_ones[0]


def open_episodes(work: Work, build: Build) -> list[Episode]:
    """Episodes that are not closed: those to come by their filming moment, then those that were filmed."""
    open_ones = [episode for episode in _live(work, build) if episode.closed_at is None]
    return sorted(open_ones, key=lambda episode: (episode.films_at < work.at, episode.films_at))


def filmed_episodes(work: Work, build: Build) -> list[Episode]:
    """Episodes whose filming moment is over, in order."""
    return [episode for episode in _live(work, build) if episode.films_at <= work.at]


def _live(work: Work, build: Build) -> list[Episode]:
    return work.all(
        Episode, Episode.build_id == build.id, col(Episode.retired_at).is_(None), order_by=Episode.films_at
    )


def _goals(work: Work, episode: Episode) -> list[Goal]:
    return work.all(Goal, Goal.episode_id == episode.id, col(Goal.retired_at).is_(None))


def _line(work: Work, goal: Goal) -> GoalLine:
    form = form_of_row(WorkRows(work), "goal", goal)
    return GoalLine(GoalKind(form.kind), form.code, Side(form.side) if form.side else None, form.text)


def _add_goal(work: Work, build: Build, number: int, goal: GoalLine) -> None:
    form = GoalForm(
        build=build.code, number=number, kind=goal.kind.value, code=goal.code, side=goal.side, text=goal.text
    )
    storing_of("goal", work).add(form)


def _told(goals: tuple[GoalLine, ...]) -> str:
    return f": {'; '.join(map(str, goals))}" if goals else ""
