"""Planning and closing episodes, and their goals. A milestone is added like any noun."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.goal_lines import GoalLine, read_goals, write_goals
from buildlog.terms import Moment

HOW_GOALS = "ready LEG-F L; shown HEAD; step LEG-BOND; prove FL07; answer Q3; or free words"


@dataclass(frozen=True, slots=True)
class PlanEpisode:
    build: str = asks("build", Kind.REFERENCE, refers="build")
    films_at: Moment = asks("films", Kind.MOMENT, future=True)
    number: int | None = asks("number", Kind.WHOLE, default=None, least=0, most=9999, help="empty: the next")
    title: str = asks("title", Kind.TEXT, default="")
    goals: tuple[GoalLine, ...] = asks(
        "goals", Kind.LINES, default=(), read=read_goals, write=write_goals, help=HOW_GOALS
    )


@dataclass(frozen=True, slots=True)
class AddGoals:
    """More goals for an episode, the one that films next unless a number is given."""

    build: str = asks("build", Kind.REFERENCE, refers="build")
    goals: tuple[GoalLine, ...] = asks("goals", Kind.LINES, read=read_goals, write=write_goals, help=HOW_GOALS)
    number: int | None = asks("episode", Kind.WHOLE, default=None, help="empty: the one that films next")


@dataclass(frozen=True, slots=True)
class SetGoals:
    """Just these goals: others are dropped, those that stay keep their tick."""

    build: str = asks("build", Kind.REFERENCE, refers="build")
    goals: tuple[GoalLine, ...] = asks("goals", Kind.LINES, read=read_goals, write=write_goals, help=HOW_GOALS)
    number: int | None = asks("episode", Kind.WHOLE, default=None, help="empty: the one that films next")


@dataclass(frozen=True, slots=True)
class TickGoal:
    """A goal reached; ``goal`` is its number in the record, or the beginning of how it is written."""

    build: str = asks("build", Kind.REFERENCE, refers="build")
    goal: str = asks("goal", Kind.TEXT, help="#12, or how it begins")
    number: int | None = asks("episode", Kind.WHOLE, default=None, help="empty: the one that films next")
    untick: bool = asks("take the tick back", Kind.YES_NO, default=False)


@dataclass(frozen=True, slots=True)
class CloseEpisode:
    """Close an episode with its text as a document.

    ``carry`` are ids of goals that status found open; left out, all that are not ticked go on to the next episode.
    """

    build: str = asks("build", Kind.REFERENCE, refers="build")
    number: int | None = asks("episode", Kind.WHOLE, default=None, help="empty: the oldest that is open")
    carry_over: bool = asks("carry open goals over", Kind.YES_NO, default=False)
    document: str = ""
    carry: tuple[int, ...] | None = None
