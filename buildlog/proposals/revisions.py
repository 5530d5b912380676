"""What can change about a part: a new revision, a successor, its stage; and a bonded position made anew."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.forms_build import SIDES
from buildlog.proposals.lines import read_codes, write_codes
from buildlog.proposals.places import Place, read_place
from buildlog.proposals.slots import BECOMES_OF
from buildlog.terms import Bonded, OldGoodFor, Stage

STANDS_IN = "stands in"
INSIDE_BONDED = "where pieces stand in a bonded position: remake it, patch it, or leave them"


@dataclass(frozen=True, slots=True)
class Revise:
    """A new revision. Figures that are left out stay as they were.

    ``also_touches`` is what the person ticked of all that touches the part: a reminder, not a fact to keep.
    """

    part: str = asks("part", Kind.REFERENCE, refers="part")
    revision: str | None = asks("new revision", Kind.CODE, default=None, help="empty: the next letter")
    what_changed: str = asks("what changed", Kind.TEXT, default="")
    old: str = asks("old ones are", Kind.CHOICE, default="still good", choices=tuple(OldGoodFor))
    side: str | None = asks("on side", Kind.CHOICE, default=None, choices=SIDES, help="empty: on both")
    old_other: str = asks("on the other side", Kind.CHOICE, default="still good", choices=tuple(OldGoodFor))
    bonded: str | None = asks("inside bonded", Kind.CHOICE, default=None, choices=tuple(Bonded), help=INSIDE_BONDED)
    together: tuple[str, ...] = asks(
        "together with",
        Kind.LINES,
        default=(),
        refers="part",
        read=read_codes,
        write=write_codes,
        help="the rest of its matched set, in the same letter",
    )
    print_time: int | None = asks("print time", Kind.DURATION, default=None, least=0)
    hand_time: int | None = asks("making time", Kind.DURATION, default=None, least=0)
    grams: int | None = asks("grams", Kind.GRAMS, default=None, least=0)
    support: int | None = asks("support grams", Kind.GRAMS, default=None, least=0)
    purge: int | None = asks("purge grams", Kind.GRAMS, default=None, least=0)
    grams_2: int | None = asks("second grams", Kind.GRAMS, default=None, least=0)
    purge_2: int | None = asks("second purge grams", Kind.GRAMS, default=None, least=0)
    figures_from: str = asks("figures from", Kind.TEXT, default="")
    also_touches: tuple[str, ...] = asks("also touches", Kind.LINES, default=(), read=read_codes, write=write_codes)


@dataclass(frozen=True, slots=True)
class Supersede:
    """Another part takes its place, in the same usages."""

    part: str = asks("part", Kind.REFERENCE, refers="part")
    by: str = asks("by", Kind.REFERENCE, refers="part")
    bonded: str | None = asks("inside bonded", Kind.CHOICE, default=None, choices=tuple(Bonded), help=INSIDE_BONDED)


@dataclass(frozen=True, slots=True)
class SetStage:
    part: str = asks("part", Kind.REFERENCE, refers="part")
    stage: str = asks("stage", Kind.CHOICE, choices=tuple(Stage))


@dataclass(frozen=True, slots=True)
class RemakePosition:
    """Make a bonded position anew: what was fitted, done and passed there no longer counts."""

    place: Place = asks("position", Kind.TEXT, refers="position", read=read_place, write=str)
    old: str = asks("the old one", Kind.CHOICE, default=STANDS_IN, choices=(STANDS_IN, *BECOMES_OF))
    why: str = asks("why", Kind.TEXT, default="")
