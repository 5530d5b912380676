"""One thing that should have happened since the ledger was last told anything, and what each answer records."""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum
from typing import Any

from buildlog.facts.frozen import frozen
from buildlog.status.blocker import Thing
from buildlog.status.status import Status
from buildlog.terms import Moment
from buildlog.wording import clock, home, soon


class DueKind(StrEnum):
    PRINTER = "printer"
    PRINT = "print"
    PARCEL = "parcel"
    SHOT = "shot"
    CURE = "cure"
    STEP = "step"
    FIT = "fit"
    SPOOL = "spool"


class Answer(StrEnum):
    AS_PLANNED = "as planned"
    FAILED = "failed"
    NOT_DONE = "not done"
    LATER = "later"


@frozen
class Asking:
    """A wish to record as of ``at`` (None: now), once what ``asks`` names is filled in; nothing named: as it is.

    ``dates`` says what happened at that moment; empty where a moment of its own would say nothing.
    """

    kind: type[Any]
    values: Mapping[str, Any] = field(default_factory=dict)
    asks: tuple[str, ...] = ()
    at: Moment | None = None
    dates: str = "when"

    def filled(self, given: Mapping[str, Any]) -> Any:
        return self.kind(**{**self.values, **given})


@frozen
class Reply:
    """What an answer means here in words, and what it records: nothing where ``asking`` is None."""

    words: str
    asking: Asking | None = None


@frozen
class Due:
    """``where`` is the printer, position, order or spool, ``what`` happened there, ``told`` when, in words;
    ``due_at`` the moment that is proposed. ``whole`` is the full form. ``key`` names it as long as it is due.
    """

    key: str
    kind: DueKind
    about: Thing
    where: str
    what: str
    told: str
    due_at: Moment
    as_planned: Reply
    failed: Reply
    not_done: Reply
    whole: Asking
    position_id: int | None = None
    caution_key: str = ""

    def reply(self, answer: Answer) -> Reply:
        return {
            Answer.AS_PLANNED: self.as_planned,
            Answer.FAILED: self.failed,
            Answer.NOT_DONE: self.not_done,
            Answer.LATER: LATER,
        }[answer]


LATER = Reply("asks again next time")


def in_words(status: Status, at: Moment, beside: Moment | None = None) -> str:
    """``Tue 22:10``; beside another moment of the same day ``22:10``."""
    zone = status.snapshot.settings.home_zone
    if beside is not None and home(at, zone).date() == home(beside, zone).date():
        return clock(at, zone)
    return soon(at, status.now, zone)
