"""What a fit test found."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.lines import read_codes, write_codes
from buildlog.proposals.places import Place, read_place
from buildlog.terms import FitOutcome, WhatThen

TriedPiece = tuple[int, int, int, int | None]
"""Ids of position and usage, number of the slot, id of the lot that a piece of was tried there; None: bought."""


@dataclass(frozen=True, slots=True)
class RecordFit:
    """A result. ``fits`` are the pieces allotted to empty slots that were tried, fitted as of its moment."""

    test: str = asks("fit test", Kind.REFERENCE, refers="fit test")
    place: Place = asks("position", Kind.TEXT, refers="position", read=read_place, write=str)
    outcome: str | None = asks(
        "outcome", Kind.CHOICE, default=None, choices=tuple(FitOutcome), help="empty: by what was measured"
    )
    measured: int | None = asks("measured", Kind.MM, default=None, least=0)
    what_then: str | None = asks("what then", Kind.CHOICE, default=None, choices=tuple(WhatThen))
    scrap: tuple[str, ...] = asks(
        "take out and scrap",
        Kind.LINES,
        default=(),
        read=read_codes,
        write=write_codes,
        help="marks or parts of what it touched, after reprint or scrap; empty: its only piece",
    )
    spot_check: bool = asks("spot check", Kind.YES_NO, default=False)
    text: str = asks("in words", Kind.TEXT, default="")
    overruled: bool = asks("overrule", Kind.YES_NO, default=False, help="although a joint may not be loaded yet")
    fits: tuple[TriedPiece, ...] = ()
