"""How many print hours are left, on which printers, and what usually comes on top."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.learning import Learning
from buildlog.status.needs import Needs
from buildlog.terms import Moment, Side


@dataclass(frozen=True, slots=True)
class PieceHours:
    """One piece of a part on a side, as it would be printed now.

    ``estimated_minutes``: its share by grams of its ready file's figure, else the revision's own figure, as told by
    whoever estimated it. ``expected_minutes``: with the learned ratio and failures. ``retries`` is expected ÷ (estimated
    × ratio), at least 1: so many times the grams go through the nozzle. ``variance`` in minutes². ``printer_ids`` can
    print it (``up_printer_ids`` and are not down now), else ``why_none`` says what each lacks.
    """

    part_id: int
    side: Side
    estimated_minutes: float
    expected_minutes: float
    variance: float
    retries: float
    print_file_id: int | None
    printer_ids: tuple[int, ...]
    up_printer_ids: tuple[int, ...]
    why_none: str


@dataclass(frozen=True, slots=True)
class RunningJob:
    """``ends_at`` is the start plus the expected hours of a print without failure; ``remaining_minutes`` (0 when
    past its end) lead there, ``expected_minutes`` reckon with failures on the way.
    """

    job_id: int
    printer_id: int | None
    ends_at: Moment
    remaining_minutes: int
    expected_minutes: int
    past_end: bool


@dataclass(frozen=True, slots=True)
class QueuedJob:
    job_id: int
    printer_ids: tuple[int, ...]
    minutes: int
    expected_minutes: int


@dataclass(frozen=True, slots=True)
class PrinterSet:
    """Minutes that exactly these printers can take; an empty set is what no printer can."""

    printer_ids: tuple[int, ...]
    running_minutes: int
    queued_minutes: int
    to_print_minutes: int

    @property
    def minutes(self) -> int:
        return self.running_minutes + self.queued_minutes + self.to_print_minutes


@dataclass(frozen=True, slots=True)
class OnTop:
    """Hours of good prints for parts ÷ hours of pieces now fitted or allotted; ``usual`` while own facts are few."""

    factor: float
    usual: bool


@dataclass(frozen=True, slots=True)
class Hours:
    """``slot_minutes`` and ``estimated_minutes`` are per piece of (part, side) that is to print, running pieces left
    out; ``no_figures`` are to print but nobody has said how long they take. ``position_minutes`` are the minutes of the
    slots to print or under way in a position itself (not below it), each slot once.
    """

    sets: tuple[PrinterSet, ...]
    running: tuple[RunningJob, ...]
    queued: tuple[QueuedJob, ...]
    pieces: dict[tuple[int, Side], PieceHours]
    ready_file: dict[tuple[int, Side], int]
    no_figures: tuple[tuple[int, Side], ...]
    position_minutes: dict[int, int]
    total_minutes: int
    low_minutes: int
    high_minutes: int
    on_top: OnTop
    learning: Learning

    @property
    def slot_minutes(self) -> dict[tuple[int, Side], int]:
        return {key: round(piece.expected_minutes) for key, piece in self.pieces.items()}

    @property
    def estimated_minutes(self) -> dict[tuple[int, Side], int]:
        return {key: round(piece.estimated_minutes) for key, piece in self.pieces.items()}


def count_hours(snapshot: Snapshot, now: Moment, needs: Needs, learning: Learning) -> Hours:
    raise NotImplementedError
