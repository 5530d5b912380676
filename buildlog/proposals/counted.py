"""What a count of a box read, as typed: ``#12 x3, FL07R-C x1, item SCREW-M4 x40``."""

import re
from dataclasses import dataclass

from buildlog.proposals.field import code, quoted
from buildlog.proposals.lots import MOST_PIECES
from buildlog.proposals.places import PiecesNamed, read_pieces

_COUNTED = re.compile(r"(?P<what>.+?)\s*(?:[x×]|\s)\s*(?P<amount>\d{1,7})")


@dataclass(frozen=True, slots=True)
class Counted:
    """``what`` is a lot or a marked piece, or the code of a bought item."""

    what: PiecesNamed | str
    amount: int


def read_counted(text: str) -> tuple[Counted, ...]:
    """``#12 x3, FL07R-C x1, item SCREW-M4 x40``: what begins with «item» is a bought item."""
    found: list[Counted] = []
    for piece in filter(None, (piece.strip() for piece in re.split(r"[,\n]", text))):
        match = _COUNTED.fullmatch(piece)
        if match is None:
            raise ValueError(f"{quoted(piece)} was not understood: write #12 x3, FL07R-C x1 or item SCREW-M4 x40")
        amount = int(match["amount"])
        if amount > MOST_PIECES:
            raise ValueError(f"{quoted(piece)}: at most {MOST_PIECES}")
        noun, _, name = match["what"].partition(" ")
        what = code(name) if noun.lower() == "item" else read_pieces(match["what"])
        if any(what == one.what for one in found):
            raise ValueError(f"{quoted(str(what))} is counted twice: name it once, with all that lie there")
        found.append(Counted(what, amount))
    return tuple(found)


def write_counted(counted: tuple[Counted, ...]) -> str:
    return ", ".join(f"{'item ' if isinstance(one.what, str) else ''}{one.what} x{one.amount}" for one in counted)
