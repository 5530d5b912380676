"""How a person names positions, slots and pieces.

A position: ``HEAD``, ``LEG-F L``, ``TOE R.2`` (the second on the right), ``TOE R.2.4`` (the fourth of the second leg
on the right), ``RING 3`` (no side). A slot: the position, a slash, the part, and where it matters side and number:
``TOE R.2 / FL07``, ``TOE R.2 / FL07 3``, ``FRAME / HOOK R 1``. Pieces: ``#123`` for a lot, ``FL07R-C`` for a marked
piece, ``FL07 L`` for whatever is there of that part and side.
"""

import re
from dataclasses import dataclass

from buildlog.proposals.field import code, quoted
from buildlog.terms import Side
from buildlog.wording import place_name

_ORDINALS = r"\d{1,6}(?:\.\d{1,6}){0,9}"
_PLACE = re.compile(
    rf"(?P<code>[^\s/]+)(?:\s+(?:(?P<side>[LRlr-])(?:\.(?P<of>{_ORDINALS}))?|(?P<alone>{_ORDINALS})))?"
)
_IN_SLOT = re.compile(r"(?P<code>[^\s/]+)(?:\s+(?P<side>[LRlr-]))?(?:\s+(?P<number>[1-9]\d{0,5}))?")
_PIECES = re.compile(r"#(?P<lot>\d{1,12})|(?P<code>[^\s/#]+)(?:\s+(?P<side>[LRlr-]))?")


@dataclass(frozen=True, slots=True)
class Place:
    """A position by its assembly, side (None: whichever there is) and the ordinals on the way down that count."""

    assembly: str
    side: Side | None = None
    ordinals: tuple[int, ...] = ()

    def __str__(self) -> str:
        return place_name(self.assembly, self.side, self.ordinals)


@dataclass(frozen=True, slots=True)
class SlotPlace:
    """A slot; without a number the first empty one that fits."""

    place: Place
    part: str
    side: Side | None = None
    number: int | None = None

    def __str__(self) -> str:
        side = self.side if self.side in (Side.LEFT, Side.RIGHT) else None
        inside = " ".join(filter(None, (self.part, side, str(self.number) if self.number else None)))
        return f"{self.place} / {inside}"


@dataclass(frozen=True, slots=True)
class PiecesNamed:
    """A lot by id, or a mark or part code with a side."""

    lot_id: int | None = None
    code: str = ""
    side: Side | None = None

    def __str__(self) -> str:
        if self.lot_id is not None:
            return f"#{self.lot_id}"
        return " ".join(filter(None, (self.code, self.side)))


def _side(text: str | None) -> Side | None:
    return Side(text.upper()) if text else None


def read_place(text: str) -> Place:
    match = _PLACE.fullmatch(text.strip())
    if match is None:
        raise ValueError(f"{quoted(text)} is no position: write HEAD, LEG-F L or TOE R.2")
    numbers = match["of"] or match["alone"] or ""
    ordinals = tuple(int(number) for number in numbers.split(".") if number)
    return Place(code(match["code"]), _side(match["side"]), ordinals)


def read_slot(text: str) -> SlotPlace:
    place, slash, inside = text.partition("/")
    match = _IN_SLOT.fullmatch(inside.strip())
    if not slash or match is None:
        raise ValueError(f"{quoted(text)} is no slot: write the position, a slash and the part, as TOE R.2 / FL07")
    number = int(match["number"]) if match["number"] else None
    return SlotPlace(read_place(place), code(match["code"]), _side(match["side"]), number)


def read_pieces(text: str) -> PiecesNamed:
    match = _PIECES.fullmatch(text.strip())
    if match is None:
        raise ValueError(f"{quoted(text)} names no pieces: write #123, a mark as FL07R-C, or a part as FL07 L")
    if match["lot"]:
        return PiecesNamed(lot_id=int(match["lot"]))
    return PiecesNamed(code=code(match["code"]), side=_side(match["side"]))
