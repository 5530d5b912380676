"""What was promised to those who supplied or lent something, and keeping it."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class MakePromise:
    """Write down who supplied or lent what, and what was promised for it."""

    who: str = asks("to whom", Kind.TEXT)
    promised: str = asks("promised", Kind.TEXT)
    supplied: str = asks("supplied", Kind.TEXT, default="", help="what they gave or lent")
    due: Moment | None = asks("to be kept by", Kind.MOMENT, default=None, future=True)
    build: str | None = asks("build", Kind.REFERENCE, default=None, refers="build", help="empty: the only open one")
    code: str | None = asks("code", Kind.CODE, default=None, help="empty: the next free one")


@dataclass(frozen=True, slots=True)
class KeepPromise:
    """The promise is kept."""

    promise: str = asks("promise", Kind.REFERENCE, refers="promise")
