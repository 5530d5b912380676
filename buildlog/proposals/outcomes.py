"""How the pieces of a print came out, as typed: ``FL07 L x2 second, FL08 R scrap``."""

import re
from dataclasses import dataclass

from buildlog.proposals.field import code, quoted
from buildlog.terms import Grade, Side

_OUTCOME = re.compile(
    r"(?P<code>\S+)(?:\s+(?P<side>[LRlr-]))?(?:\s*[x×]\s*(?P<pieces>\d{1,6}))?"
    r"\s+(?P<came_out>good|second|salvage|scrap)"
)
SCRAP = "scrap"
_WAYS = (*Grade, SCRAP)


@dataclass(frozen=True, slots=True)
class CameOut:
    """``pieces`` of a part came out so; None means all of them, ``grade`` None means scrap."""

    code: str
    side: Side | None
    pieces: int | None
    grade: Grade | None


def read_outcomes(text: str) -> tuple[CameOut, ...]:
    outcomes = []
    for piece in filter(None, (piece.strip() for piece in re.split(r"[,\n]", text))):
        match = _OUTCOME.fullmatch(piece)
        if match is None:
            raise ValueError(_not_understood(piece))
        said = match["came_out"]
        outcomes.append(
            CameOut(
                code(match["code"]),
                Side(match["side"].upper()) if match["side"] else None,
                int(match["pieces"]) if match["pieces"] else None,
                None if said == "scrap" else Grade(said),
            )
        )
    return tuple(outcomes)


def ways_out(pieces: str) -> tuple[str, ...]:
    """What may be said of pieces: ``HUB good``, ``HUB second``, …"""
    return tuple(f"{pieces} {way}" for way in _WAYS)


def _not_understood(piece: str) -> str:
    if _OUTCOME.fullmatch(f"{piece} {SCRAP}"):
        return f"say how {piece} came out: write {', '.join(ways_out(piece)[:-1])} or {ways_out(piece)[-1]}"
    return f"{quoted(piece)} was not understood: write CODE L x2 second, with good, second, salvage or scrap"


def write_outcomes(outcomes: tuple[CameOut, ...]) -> str:
    return ", ".join(
        o.code
        + (f" {o.side}" if o.side is not None else "")
        + (f" x{o.pieces}" if o.pieces is not None else "")
        + f" {o.grade or 'scrap'}"
        for o in outcomes
    )
