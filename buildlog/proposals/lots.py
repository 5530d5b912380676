"""What can happen to pieces that stand in no slot. ``what`` names a lot, a marked piece, or a part with its side;
``pieces`` says how many of them, all when left out."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.forms_build import SIDES
from buildlog.proposals.places import PiecesNamed, Place, read_pieces, read_place
from buildlog.terms import Grade

MOST_PIECES = 100_000
ALL_OF_IT = "empty: all of it"


@dataclass(frozen=True, slots=True)
class CountLot:
    """What a count read of one lot in its box: not what is fitted, not what is lent."""

    what: PiecesNamed = asks("what", Kind.TEXT, refers="lot", read=read_pieces, write=str)
    pieces: int = asks("lie there", Kind.WHOLE, least=0, most=MOST_PIECES)


@dataclass(frozen=True, slots=True)
class CountPart:
    """What a count read of a part and side, in one box or anywhere, laid over its lots; more than known is a new lot.

    This is also how a build is taken up half way.
    """

    part: str = asks("part", Kind.REFERENCE, refers="part")
    side: str | None = asks("side", Kind.CHOICE, default=None, choices=SIDES)
    pieces: int = asks("lie there", Kind.WHOLE, least=0, most=MOST_PIECES)
    revision: str | None = asks("revision", Kind.CODE, default=None, help="empty: any; new ones are current")
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box", help="empty: wherever they lie")
    grade: str = asks("grade", Kind.CHOICE, default="good", choices=tuple(Grade))


@dataclass(frozen=True, slots=True)
class ScrapPieces:
    what: PiecesNamed = asks("what", Kind.TEXT, refers="lot", read=read_pieces, write=str)
    pieces: int | None = asks("pieces", Kind.WHOLE, default=None, least=1, help=ALL_OF_IT)
    why: str = asks("why", Kind.TEXT, default="")


@dataclass(frozen=True, slots=True)
class MarkMissing:
    what: PiecesNamed = asks("what", Kind.TEXT, refers="lot", read=read_pieces, write=str)
    pieces: int | None = asks("pieces", Kind.WHOLE, default=None, least=1, help=ALL_OF_IT)


@dataclass(frozen=True, slots=True)
class FoundPieces:
    what: PiecesNamed = asks("what", Kind.TEXT, refers="lot", read=read_pieces, write=str)
    pieces: int | None = asks("pieces", Kind.WHOLE, default=None, least=1, help="empty: all that are missing")
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box")


@dataclass(frozen=True, slots=True)
class LendPieces:
    what: PiecesNamed = asks("what", Kind.TEXT, refers="lot", read=read_pieces, write=str)
    pieces: int | None = asks("pieces", Kind.WHOLE, default=None, least=1, help=ALL_OF_IT)
    to: str = asks("to", Kind.TEXT, default="", help="who has them and until when")


@dataclass(frozen=True, slots=True)
class PiecesBack:
    what: PiecesNamed = asks("what", Kind.TEXT, refers="lot", read=read_pieces, write=str)
    pieces: int | None = asks("pieces", Kind.WHOLE, default=None, least=1, help="empty: all that are lent")
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box")


@dataclass(frozen=True, slots=True)
class MovePieces:
    what: PiecesNamed = asks("what", Kind.TEXT, refers="lot", read=read_pieces, write=str)
    box: str = asks("box", Kind.REFERENCE, refers="box")
    pieces: int | None = asks("pieces", Kind.WHOLE, default=None, least=1, help=ALL_OF_IT)


@dataclass(frozen=True, slots=True)
class DamagePieces:
    """Something broke: out of use, or kept in use with a temporary repair. A fitted piece stays in its slot."""

    what: PiecesNamed = asks("what", Kind.TEXT, refers="lot", read=read_pieces, write=str)
    where: str = asks("where", Kind.TEXT, help="the place on the piece")
    why: str = asks("why", Kind.TEXT, default="")
    out_of_use: bool = asks("out of use", Kind.YES_NO, default=True, help="no: repaired for the time being")
    pieces: int | None = asks("pieces", Kind.WHOLE, default=None, least=1, help=ALL_OF_IT)
    stands_in: Place | None = asks(
        "stands in",
        Kind.TEXT,
        default=None,
        refers="position",
        read=read_place,
        write=str,
        help="the position, of a part that stands in several",
    )


@dataclass(frozen=True, slots=True)
class RepairPieces:
    what: PiecesNamed = asks("what", Kind.TEXT, refers="lot", read=read_pieces, write=str)
    pieces: int | None = asks("pieces", Kind.WHOLE, default=None, least=1, help="empty: all that are damaged")


@dataclass(frozen=True, slots=True)
class MakePieces:
    """Pieces of a part that is made by hand."""

    part: str = asks("part", Kind.REFERENCE, refers="part")
    side: str | None = asks("side", Kind.CHOICE, default=None, choices=SIDES)
    pieces: int = asks("pieces", Kind.WHOLE, default=1, least=1, most=MOST_PIECES)
    revision: str | None = asks("revision", Kind.CODE, default=None, help="empty: the current one")
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box")
    grade: str = asks("grade", Kind.CHOICE, default="good", choices=tuple(Grade))
