"""Forms of what the week's story needs: shots, questions of viewers, promises."""

from dataclasses import dataclass
from typing import ClassVar

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.forms_build import SIDES
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class Shot:
    """Something to film. Before a step that cannot be undone it holds that step until its footage is safe."""

    NOUN: ClassVar[str] = "shot"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    build: str = asks("build", Kind.REFERENCE, refers="build")
    what: str = asks("what to film", Kind.TEXT)
    episode: int | None = asks(
        "episode", Kind.WHOLE, default=None, least=0, most=9999, apart=True, help="empty: whichever comes"
    )
    step: str | None = asks("before step", Kind.REFERENCE, default=None, refers="step")
    side: str | None = asks("side", Kind.CHOICE, default=None, choices=SIDES, help="empty: one shot does for both")
    filmed: Moment | None = asks("filmed", Kind.MOMENT, default=None)
    safe: Moment | None = asks("footage safe", Kind.MOMENT, default=None, help="copied and looked at")
    overruled: Moment | None = asks("gone on without", Kind.MOMENT, default=None)
    overruled_why: str = asks("because", Kind.TEXT, default="")


@dataclass(frozen=True, slots=True)
class ViewerQuestion:
    """What somebody who watches asked; it holds nothing."""

    NOUN: ClassVar[str] = "viewer question"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    build: str = asks("build", Kind.REFERENCE, refers="build")
    text: str = asks("question", Kind.TEXT)
    who: str = asks("who asked", Kind.TEXT, default="a viewer")
    asked_in: int | None = asks("under episode", Kind.WHOLE, default=None, least=0, most=9999, apart=True)
    asked: Moment | None = asks("asked", Kind.MOMENT, default=None)
    answer: str = asks("answer", Kind.TEXT, default="")
    answered_in: int | None = asks("answered in", Kind.WHOLE, default=None, least=0, most=9999, apart=True)
    answered: Moment | None = asks("answered", Kind.MOMENT, default=None)


@dataclass(frozen=True, slots=True)
class Promise:
    """Who supplied or lent what, and what was promised for it: a mention, a picture, a visit."""

    NOUN: ClassVar[str] = "promise"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    build: str = asks("build", Kind.REFERENCE, refers="build")
    who: str = asks("to whom", Kind.TEXT)
    supplied: str = asks("supplied", Kind.TEXT, default="", help="what they gave or lent")
    promised: str = asks("promised", Kind.TEXT)
    made: Moment | None = asks("promised on", Kind.MOMENT, default=None, column="promised_at")
    due: Moment | None = asks("to be kept by", Kind.MOMENT, default=None, future=True)
    kept: Moment | None = asks("kept", Kind.MOMENT, default=None)
