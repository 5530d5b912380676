"""What can happen to a slot. Slots are named as ``TOE R.2 / FL07 3``."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.places import PiecesNamed, SlotPlace, read_pieces, read_slot
from buildlog.terms import Moment

BACK, SCRAP = "back to the box", "scrap"
BECOMES_OF = (BACK, SCRAP)


WHICH_SLOT = "as TOE R.2 / FL07: the first empty one, or with its number"
ELSE_OPEN = "else bonding and assembling steps open again"
OLD_ENDED = "when what stood there was taken out, if not now"
NEW_ENDED = "when this one was taken out again, for a fact entered late"


@dataclass(frozen=True, slots=True)
class FitPiece:
    slot: SlotPlace = asks("slot", Kind.TEXT, refers="slot", read=read_slot, write=str, help=WHICH_SLOT)
    piece: PiecesNamed | None = asks(
        "piece", Kind.TEXT, default=None, refers="lot", read=read_pieces, write=str, help="empty: the first free one"
    )
    old: str | None = asks("what stood there", Kind.CHOICE, default=None, choices=BECOMES_OF)
    end_old_at: Moment | None = asks("that ended at", Kind.MOMENT, default=None, help=OLD_ENDED)
    end_at: Moment | None = asks("end it at", Kind.MOMENT, default=None, help=NEW_ENDED)
    keep_steps: bool = asks("keep steps done", Kind.YES_NO, default=False, help=ELSE_OPEN)


@dataclass(frozen=True, slots=True)
class PutStandIn:
    """Something temporary: a piece, or something told in words."""

    slot: SlotPlace = asks("slot", Kind.TEXT, refers="slot", read=read_slot, write=str, help=WHICH_SLOT)
    piece: PiecesNamed | None = asks("piece", Kind.TEXT, default=None, refers="lot", read=read_pieces, write=str)
    words: str = asks("or in words", Kind.TEXT, default="")
    old: str | None = asks("what stood there", Kind.CHOICE, default=None, choices=BECOMES_OF)
    end_old_at: Moment | None = asks("that ended at", Kind.MOMENT, default=None, help=OLD_ENDED)
    end_at: Moment | None = asks("end it at", Kind.MOMENT, default=None, help=NEW_ENDED)
    keep_steps: bool = asks("keep steps done", Kind.YES_NO, default=False, help=ELSE_OPEN)


@dataclass(frozen=True, slots=True)
class TakeOut:
    """Take a piece out, by its slot or by its name."""

    slot: SlotPlace | None = asks("slot", Kind.TEXT, default=None, refers="slot", read=read_slot, write=str)
    piece: PiecesNamed | None = asks("or piece", Kind.TEXT, default=None, refers="lot", read=read_pieces, write=str)
    becomes: str = asks("becomes of it", Kind.CHOICE, default=BACK, choices=BECOMES_OF)
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box")
    why: str = asks("why", Kind.TEXT, default="")
    keep_steps: bool = asks("keep steps done", Kind.YES_NO, default=False, help=ELSE_OPEN)


@dataclass(frozen=True, slots=True)
class ClearSlot:
    """Empty every slot of a part in a position, or one numbered slot."""

    slot: SlotPlace = asks("slot", Kind.TEXT, refers="slot", read=read_slot, write=str, help=WHICH_SLOT)
    becomes: str = asks("becomes of it", Kind.CHOICE, default=BACK, choices=BECOMES_OF)
    why: str = asks("why", Kind.TEXT, default="")
    keep_steps: bool = asks("keep steps done", Kind.YES_NO, default=False, help=ELSE_OPEN)
