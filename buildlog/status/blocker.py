"""One reason why a position is not ready."""

from enum import StrEnum
from typing import NamedTuple

from buildlog.terms import Moment


class BlockerKind(StrEnum):
    NOT_PRINTED = "not printed"
    NEEDS_PREPARING = "needs preparing"
    UNDER_WAY = "under way"
    BOUGHT_SHORT = "bought short"
    ON_ORDER = "on order"
    NO_MATERIAL = "no material"
    NO_ONE_SPOOL = "no one spool holds enough"
    SPOOL_WET = "dry the spool first"
    NO_PRINTER = "no printer can"
    PRINTER_DOWN = "printer is down"
    STEP_OPEN = "step open"
    JIG_TAKEN = "jig taken"
    CURING = "curing"
    FIT_DUE = "fit due"
    FIT_FAILED = "fit failed"
    FIT_STALE = "fit stale"
    QUESTION = "question open"
    STAND_IN = "stand-in"
    OUT_OF_STEP = "sides out of step"
    NOT_DRAWN = "not drawn yet"
    NO_FIGURES = "no figures yet"
    MAKE_BY_HAND = "to make by hand"
    HELD = "held on purpose"
    TAKE_OUT = "take out"
    DAMAGED = "damaged"
    MISSING = "missing"
    FILM_FIRST = "film first"
    WAIT = "waits"
    CONFLICT = "wrong as it is"


class Thing(NamedTuple):
    """What a blocker, a doable or an alert is about: a noun with its row, as the screens lead there."""

    noun: str
    id: int
    name: str


class Blocker(NamedTuple):
    """A leaf blocker of one position: one cause, kept once.

    ``text`` says it in plain words without the position; ``pieces`` counts the slots it holds (0 where none);
    ``until`` is when it goes away by itself (print ends, cure over, parcel due) where that is known;
    ``bench_minutes`` is the person's work to end it, None where no person can.
    """

    kind: BlockerKind
    position_id: int
    about: Thing
    text: str
    pieces: int = 0
    until: Moment | None = None
    print_minutes: float = 0
    bench_minutes: int | None = None
