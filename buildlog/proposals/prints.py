"""Wishes about prints: queue, start, finish, fail, cancel, correct; and a print that is over already, told whole."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.limits import LAST_RANK
from buildlog.proposals.lines import read_codes, write_codes
from buildlog.proposals.outcomes import CameOut, read_outcomes, write_outcomes
from buildlog.proposals.to_print import ToPrint
from buildlog.terms import FigureOrigin, JobState, Moment

TEACHES = (FigureOrigin.TYPED.value, FigureOrigin.FILE.value, FigureOrigin.SCALE.value)
ENDINGS = (JobState.FINISHED.value, JobState.FAILED.value)


@dataclass(frozen=True, slots=True)
class QueuePrint(ToPrint):
    """Put a print in the queue, as often as ``times`` says."""

    printer: str | None = asks("printer", Kind.REFERENCE, default=None, refers="printer")
    times: int = asks("times", Kind.WHOLE, default=1, least=1, most=100)
    rank: int | None = asks(
        "rank", Kind.WHOLE, default=None, least=-LAST_RANK, most=LAST_RANK, help="a lower number is printed first"
    )


@dataclass(frozen=True, slots=True)
class StartPrint(ToPrint):
    """Start a queued print, a file (a queued run of it is taken), or typed lines.

    ``spools_short`` says which of its spools do not bear it in one go, as things stand.
    """

    job: int | None = asks("print", Kind.WHOLE, default=None, refers="print", help="number of a queued one")
    printer: str | None = asks("printer", Kind.REFERENCE, default=None, refers="printer")
    spools: tuple[str, ...] = asks(
        "spools",
        Kind.LINES,
        default=(),
        refers="spool",
        read=read_codes,
        write=write_codes,
        help="head by head; empty: those loaded",
    )
    unattended: bool = asks(
        "unattended",
        Kind.YES_NO,
        default=False,
        caution="A print that nobody watches can start a fire: see the maker's manual and local rules.",
    )
    ended: Moment | None = asks(
        "ended", Kind.MOMENT, default=None, help="of a print that is over already, all pieces good"
    )
    anyway: bool = asks(
        "anyway",
        Kind.YES_NO,
        default=False,
        help="it was started although printer, nozzle, material or spool do not bear it",
    )
    spools_short: str = ""


@dataclass(frozen=True, slots=True)
class FinishPrint:
    """The print has ended; every piece that ``outcomes`` does not name came out good."""

    job: int | None = asks("print", Kind.WHOLE, default=None, refers="print")
    printer: str | None = asks("printer", Kind.REFERENCE, default=None, refers="printer")
    outcomes: tuple[CameOut, ...] = asks(
        "came out",
        Kind.LINES,
        default=(),
        refers="part",
        read=read_outcomes,
        write=write_outcomes,
        help="what is not good, as FL07 L x2 second, FL08 R scrap",
    )
    other_side: bool = asks("came out as the other side", Kind.YES_NO, default=False)
    real_time: int | None = asks("took", Kind.DURATION, default=None, least=0, help="empty: as estimated")
    grams: int | None = asks("grams", Kind.GRAMS, default=None, least=0, help="empty: as estimated")
    grams_2: int | None = asks("second grams", Kind.GRAMS, default=None, least=0)
    figures_from: str = asks("figures", Kind.CHOICE, default="typed", choices=TEACHES)
    cause: str = asks("cause", Kind.TEXT, default="", help="of what is not good")


@dataclass(frozen=True, slots=True)
class FailPrint:
    """The print has failed; every piece that ``outcomes`` does not name is scrap."""

    job: int | None = asks("print", Kind.WHOLE, default=None, refers="print")
    printer: str | None = asks("printer", Kind.REFERENCE, default=None, refers="printer")
    cause: str = asks("cause", Kind.TEXT, default="")
    went_wrong: Moment | None = asks("went wrong", Kind.MOMENT, default=None, help="empty: not known")
    stopped: Moment | None = asks("stopped", Kind.MOMENT, default=None, help="when laying down ended; empty: now")
    ran_on: bool = asks("filament ran on", Kind.YES_NO, default=False, help="until it was taken notice of")
    outcomes: tuple[CameOut, ...] = asks(
        "kept",
        Kind.LINES,
        default=(),
        refers="part",
        read=read_outcomes,
        write=write_outcomes,
        help="what is not scrap, as FL07 L x2 salvage; without a number all of them",
    )
    real_time: int | None = asks("ran", Kind.DURATION, default=None, least=0, help="empty: from start to stop")
    grams: int | None = asks("grams", Kind.GRAMS, default=None, least=0, help="empty: by the time it ran")
    grams_2: int | None = asks("second grams", Kind.GRAMS, default=None, least=0)
    figures_from: str = asks("figures", Kind.CHOICE, default="typed", choices=TEACHES)


@dataclass(frozen=True, slots=True)
class PrintRan(ToPrint):
    """A print that is over already, from its start (the moment of the wish) to how it came out."""

    job: int | None = asks("print", Kind.WHOLE, default=None, refers="print", help="number of a queued one")
    printer: str | None = asks("printer", Kind.REFERENCE, default=None, refers="printer")
    ended: Moment = asks("ended", Kind.MOMENT, help="of one that failed: when that was noticed")
    came_out: str = asks(
        "outcome",
        Kind.CHOICE,
        default=JobState.FINISHED.value,
        choices=ENDINGS,
    )
    outcomes: tuple[CameOut, ...] = asks(
        "pieces",
        Kind.LINES,
        default=(),
        refers="part",
        read=read_outcomes,
        write=write_outcomes,
        help="finished: what is not good, as FL08 R scrap; failed: what can be used, as FL07 L salvage",
    )
    cause: str = asks("cause", Kind.TEXT, default="", help="of what went wrong")
    went_wrong: Moment | None = asks("went wrong", Kind.MOMENT, default=None, help="of one that failed")
    spools: tuple[str, ...] = asks(
        "spools",
        Kind.LINES,
        default=(),
        refers="spool",
        read=read_codes,
        write=write_codes,
        help="head by head; empty: those loaded then",
    )
    anyway: bool = asks(
        "anyway",
        Kind.YES_NO,
        default=False,
        help="it was started although printer, nozzle, material or spool do not bear it",
    )
    spools_short: str = ""


@dataclass(frozen=True, slots=True)
class CancelPrint:
    job: int = asks("print", Kind.WHOLE, refers="print")


@dataclass(frozen=True, slots=True)
class Restarted:
    """The first layer did not hold and the running print was started once more."""

    job: int | None = asks("print", Kind.WHOLE, default=None, refers="print")
    printer: str | None = asks("printer", Kind.REFERENCE, default=None, refers="printer")


@dataclass(frozen=True, slots=True)
class SwapSpool:
    """Go on with another spool on a head of a print that runs, or ran at that moment."""

    printer: str | None = asks("printer", Kind.REFERENCE, default=None, refers="printer")
    spool: str = asks("next spool", Kind.REFERENCE, refers="spool")
    head: int = asks("head", Kind.WHOLE, default=1, least=1, most=16)
    grams: int | None = asks(
        "grams drawn", Kind.GRAMS, default=None, least=0, help="from the old spool; empty: by time"
    )
    anyway: bool = asks("anyway", Kind.YES_NO, default=False, help="although the material does not match")


@dataclass(frozen=True, slots=True)
class CorrectPrint:
    """Put right what was recorded of a print that has ended; what is left empty stays."""

    job: int = asks("print", Kind.WHOLE, refers="print")
    started: Moment | None = asks("started", Kind.MOMENT, default=None)
    ended: Moment | None = asks("ended", Kind.MOMENT, default=None)
    went_wrong: Moment | None = asks("went wrong", Kind.MOMENT, default=None)
    stopped: Moment | None = asks("stopped", Kind.MOMENT, default=None)
    real_time: int | None = asks("took", Kind.DURATION, default=None, least=0, help="empty: as recorded")
    grams: int | None = asks("grams", Kind.GRAMS, default=None, least=0, help="empty: as recorded")
    grams_2: int | None = asks("second grams", Kind.GRAMS, default=None, least=0)
    figures_from: str = asks("figures", Kind.CHOICE, default="typed", choices=TEACHES)
    outcomes: tuple[CameOut, ...] | None = asks(
        "came out",
        Kind.LINES,
        default=None,
        refers="part",
        read=read_outcomes,
        write=write_outcomes,
        help="all that is not as usual for such a print, as FL07 L x2 second",
    )
    other_side: bool = asks("came out as the other side", Kind.YES_NO, default=False)
    ended_as: str | None = asks(
        "outcome",
        Kind.CHOICE,
        default=None,
        choices=ENDINGS,
        help="where the other one was recorded; its pieces are then as usual for that, or as said",
    )
    restarts: int | None = asks("restarts", Kind.WHOLE, default=None, least=0, most=100)
    cause: str | None = asks("cause", Kind.TEXT, default=None)


@dataclass(frozen=True, slots=True)
class MovePrint:
    """Give a queued print another place in the queue or another printer."""

    job: int = asks("print", Kind.WHOLE, refers="print")
    rank: int | None = asks(
        "rank", Kind.WHOLE, default=None, least=-LAST_RANK, most=LAST_RANK, help="a lower number is printed first"
    )
    printer: str | None = asks("printer", Kind.REFERENCE, default=None, refers="printer")
