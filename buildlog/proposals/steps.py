"""Ticking bench work: steps in positions, and steps on pieces."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.places import PiecesNamed, Place, read_pieces, read_place

AllottedPiece = tuple[int, int, int | None]
"""Id of the usage, number of the slot, id of the lot that a piece of is to go there; None for a bought part."""


@dataclass(frozen=True, slots=True)
class TickStep:
    """A step done in a position, or on pieces. ``fits`` are the pieces allotted to the position's empty slots."""

    step: str = asks("step", Kind.REFERENCE, refers="step")
    place: Place | None = asks("position", Kind.TEXT, default=None, refers="position", read=read_place, write=str)
    what: PiecesNamed | None = asks(
        "or pieces of", Kind.TEXT, default=None, refers="lot", read=read_pieces, write=str
    )
    pieces: int | None = asks("how many", Kind.WHOLE, default=None, least=1, help="empty: all that are left")
    real_time: int | None = asks("took", Kind.DURATION, default=None, least=0, help="empty: not timed")
    overruled: bool = asks(
        "overrule", Kind.YES_NO, default=False, help="although slots are empty or something is not done yet"
    )
    fits: tuple[AllottedPiece, ...] = ()


@dataclass(frozen=True, slots=True)
class TickSteps:
    """Many steps at once, in order, all of them or none."""

    ticks: tuple[TickStep, ...]


@dataclass(frozen=True, slots=True)
class ReopenStep:
    """A step is to be done again: its tick no longer counts from then on."""

    step: str = asks("step", Kind.REFERENCE, refers="step")
    place: Place | None = asks("position", Kind.TEXT, default=None, refers="position", read=read_place, write=str)
    what: PiecesNamed | None = asks(
        "or pieces of", Kind.TEXT, default=None, refers="lot", read=read_pieces, write=str
    )
