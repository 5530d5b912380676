"""Planning, filming and copying shots, and going on without one."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.forms_build import SIDES


@dataclass(frozen=True, slots=True)
class PlanShot:
    """Plan a shot, for the episode that films next unless a number is given."""

    what: str = asks("what to film", Kind.TEXT)
    step: str | None = asks(
        "before step", Kind.REFERENCE, default=None, refers="step", help="it holds a step that cannot be undone"
    )
    side: str | None = asks("side", Kind.CHOICE, default=None, choices=SIDES, help="empty: one shot does for both")
    build: str | None = asks(
        "build", Kind.REFERENCE, default=None, refers="build", help="empty: the step's, or the only open one"
    )
    episode: int | None = asks("episode", Kind.WHOLE, default=None, help="empty: the one that films next")
    code: str | None = asks("code", Kind.CODE, default=None, help="empty: the next free one")


@dataclass(frozen=True, slots=True)
class FilmShot:
    """The shot is filmed; its footage is still to be copied and looked at."""

    shot: str = asks("shot", Kind.REFERENCE, refers="shot")
    safe: bool = asks("footage safe", Kind.YES_NO, default=False, help="copied and looked at already")


@dataclass(frozen=True, slots=True)
class FootageSafe:
    """The footage was copied and looked at: the shot holds nothing any more."""

    shot: str = asks("shot", Kind.REFERENCE, refers="shot")


@dataclass(frozen=True, slots=True)
class FootageLost:
    """There is no footage after all: the shot is to be filmed again."""

    shot: str = asks("shot", Kind.REFERENCE, refers="shot")


@dataclass(frozen=True, slots=True)
class OverruleShot:
    """Go on without the shot: the step that it comes before is held no longer."""

    shot: str = asks("shot", Kind.REFERENCE, refers="shot")
    why: str = asks("because", Kind.TEXT, default="")
