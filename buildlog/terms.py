"""The words of the ledger as enums and small value types.

Every enum is stored by its value. A ``Moment`` is fixed-width UTC text such as ``2026-11-25T13:03:00Z``:
it sorts as text, so facts keep it as it is stored and only arithmetic turns it into a datetime.
"""

from datetime import UTC, datetime, timedelta
from enum import StrEnum
from typing import NewType

Moment = NewType("Moment", str)

FIRST_YEAR, LAST_YEAR = 1970, 2199
"""Our choice: no build is older, none is planned for later, and dates reckoned from these stay dates."""
MOMENT_FORMAT = "%Y-%m-%dT%H:%M:%SZ"


def moment(when: datetime) -> Moment:
    """The moment of an aware datetime; ValueError for a naive one."""
    if when.tzinfo is None:
        raise ValueError("a moment needs a time zone")
    return Moment(when.astimezone(UTC).strftime(MOMENT_FORMAT))


def when(at: Moment) -> datetime:
    """The aware UTC datetime of a moment."""
    return datetime.fromisoformat(at)


def minutes_between(start: Moment, end: Moment) -> int:
    """Whole minutes from start to end, negative when end comes first."""
    return round((when(end) - when(start)).total_seconds() / 60)


def later(at: Moment, minutes: int) -> Moment:
    """So many minutes after a moment, before it where they are negative."""
    return moment(when(at) + timedelta(minutes=minutes)) if minutes else at


class Side(StrEnum):
    LEFT = "L"
    RIGHT = "R"
    NONE = "-"

    @property
    def other(self) -> "Side":
        return {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}.get(self, Side.NONE)


class SideRule(StrEnum):
    AS_POSITION = "as the position"
    LEFT_ONLY = "L only"
    RIGHT_ONLY = "R only"
    ONE_OF_EACH = "one of each"


class BuildState(StrEnum):
    OPEN = "open"
    PAUSED = "paused"
    CLOSED = "closed"


class Joined(StrEnum):
    COMES_APART = "comes apart"
    BONDED = "bonded"


class Origin(StrEnum):
    """Where a part comes from."""

    PRINTED = "printed"
    BOUGHT = "bought"
    MADE = "made by hand"


class Stage(StrEnum):
    IDEA = "idea"
    DRAWN = "drawn"
    TRIAL = "trial"
    PROVEN = "proven"


class OldGoodFor(StrEnum):
    STILL_GOOD = "still good"
    STAND_INS = "stand-ins"
    NO_GOOD = "no good"


class Bonded(StrEnum):
    """What a change does inside a bonded position."""

    REMAKE = "remake"
    PATCH = "patch"
    LEAVE = "leave"


class Grade(StrEnum):
    GOOD = "good"
    SECOND = "second"
    SALVAGE = "salvage"


class LotOrigin(StrEnum):
    PRINT = "print"
    COUNT = "count"
    MADE = "made by hand"
    SPLIT = "split"


class LotEntryKind(StrEnum):
    COUNTED = "counted"
    FITTED = "fitted"
    TAKEN_OUT = "taken out"
    SCRAPPED = "scrapped"
    OUT_OF_USE = "out of use"
    REPAIRED = "repaired"
    MISSING = "missing"
    FOUND = "found"
    LENT = "lent"
    RETURNED = "returned"
    MOVED = "moved"
    SPLIT_OFF = "split off"


class JobState(StrEnum):
    QUEUED = "queued"
    RUNNING = "running"
    FINISHED = "finished"
    FAILED = "failed"
    CANCELLED = "cancelled"


class Purpose(StrEnum):
    PARTS = "parts"
    TRIAL = "trial"
    OTHER = "other"


class FigureOrigin(StrEnum):
    """Where a real figure comes from; only the last three teach."""

    ESTIMATE = "from the estimate"
    TYPED = "typed"
    FILE = "from file"
    SCALE = "from scale"


class SetUpKind(StrEnum):
    NOZZLE = "nozzle"
    LOADED = "loaded"
    UNLOADED = "unloaded"
    BED = "bed surface"
    DOWN = "down"
    UP = "up"


class ResourceKind(StrEnum):
    JIG = "jig"
    DRYER = "dryer"
    PERSON = "person"


class SpoolEntryKind(StrEnum):
    OPENED = "opened"
    SEALED = "sealed"
    DRIED = "dried"
    WEIGHED = "weighed"
    EMPTIED = "emptied"
    DRAWN = "drawn"


class BoughtAccount(StrEnum):
    COUNTED = "counted"
    ROUGH = "rough"


class BoughtEntryKind(StrEnum):
    RECEIVED = "received"
    COUNTED = "counted"
    DRAWN = "drawn"
    RETURNED = "returned"
    LEVEL = "level"


class Level(StrEnum):
    PLENTY = "plenty"
    LOW = "low"
    OUT = "out"


class Unit(StrEnum):
    EACH = "each"
    MM = "mm"
    SHEET = "sheet"
    ML = "ml"


class StepKind(StrEnum):
    DESIGN = "design"
    PREPARE = "prepare"
    CLEAN = "clean"
    SAND = "sand"
    DRILL = "drill"
    BOND = "bond"
    SOLVENT_BOND = "solvent bond"
    ASSEMBLE = "assemble"
    PAINT = "paint"
    REWORK = "rework"
    WIRE = "wire"
    FILM = "film"
    OTHER = "other"

    @property
    def holds_slots(self) -> bool:
        """Whether its slots must be held and sub-positions be ready before it opens."""
        return self in (StepKind.BOND, StepKind.SOLVENT_BOND, StepKind.ASSEMBLE)


class FitKind(StrEnum):
    CLEARANCE = "clearance"
    HEIGHT = "height"
    ALIGNMENT = "alignment"
    MOTION = "motion"
    LOAD = "load"
    ON_PERSON = "on-person"
    LOOK = "look"


class FitRule(StrEnum):
    """What makes a result stale."""

    NEW_REVISION = "new revision"
    ANY_NEW_PIECE = "any new piece"
    REWORK = "rework"


class FitOutcome(StrEnum):
    PASSED = "passed"
    FAILED = "failed"


class WhatThen(StrEnum):
    USE_AS_IS = "use as is"
    REWORK = "rework"
    REPRINT = "reprint"
    SCRAP = "scrap"


class MilestoneKind(StrEnum):
    FILMING = "filming"
    EVENT = "event"
    REHEARSAL = "rehearsal"
    FREEZE = "freeze"
    TRANSPORT = "transport"


class Wanted(StrEnum):
    READY = "ready"
    SHOWN = "shown"


class GoalKind(StrEnum):
    READY = "ready"
    SHOWN = "shown"
    STEP = "step"
    PROVE = "prove"
    ANSWER = "answer"
    FREE = "free"


class HeldBy(StrEnum):
    """What an exact wish in a file or form means when both the file and the ledger changed."""

    FILE = "file"
    LEDGER = "ledger"


class Capability(StrEnum):
    """Words a part may ask of a printer, beside bed, heads and nozzle."""

    TWO_MATERIALS = "two materials"
    ENCLOSED = "enclosed"
    FLEXIBLE = "flexible"
    HARDENED = "hardened nozzle"
