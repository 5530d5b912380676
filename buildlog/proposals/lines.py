"""Small lists inside one field: ``FL07 L x2, FL08 R``, ``HINGE x2``, ``HEAD, LEG L shown``, ``any ABS``."""

import re
from dataclasses import dataclass

from buildlog.proposals.field import code, quoted
from buildlog.proposals.limits import MOST_LAID
from buildlog.terms import Side, Wanted

_LINE = re.compile(r"(?P<code>\S+)(?:\s+(?P<side>[LRlr-]))?(?:\s*[x×]\s*(?P<quantity>\d{1,6}))?")
_TARGET = re.compile(r"(?P<code>\S+)(?:\s+(?P<side>[LRlr]))?(?:\s+(?P<wanted>ready|shown))?")


@dataclass(frozen=True, slots=True)
class Line:
    """A code with side and quantity."""

    code: str
    side: Side = Side.NONE
    quantity: int = 1


@dataclass(frozen=True, slots=True)
class Target:
    code: str
    side: Side | None = None
    wanted: Wanted = Wanted.READY


@dataclass(frozen=True, slots=True)
class Ask:
    """A demand: an exact material by code, or a polymer in any colour."""

    material: str | None
    polymer: str | None


def _each(text: str, shape: re.Pattern[str], expected: str) -> list[re.Match[str]]:
    found = []
    for piece in (piece.strip() for piece in re.split(r"[,\n]", text)):
        if not piece:
            continue
        match = shape.fullmatch(piece)
        if match is None:
            raise ValueError(f"{quoted(piece)} was not understood: write {expected}")
        found.append(match)
    return found


def read_lines(text: str) -> tuple[Line, ...]:
    lines = []
    for match in _each(text, _LINE, "CODE, CODE L or CODE R x2, parted by commas"):
        quantity = int(match["quantity"] or 1)
        if quantity < 1:
            raise ValueError(f"{quoted(match[0])} has a quantity of nothing")
        lines.append(Line(code(match["code"]), Side((match["side"] or "-").upper()), quantity))
    return tuple(lines)


def read_laid(text: str) -> tuple[Line, ...]:
    """Lines of a print."""
    lines = read_lines(text)
    for line in lines:
        if line.quantity > MOST_LAID:
            raise ValueError(f"{line.code} x{line.quantity}: a print lays down at most {MOST_LAID} of a part")
    return lines


def write_lines(lines: tuple[Line, ...]) -> str:
    return ", ".join(
        line.code
        + (f" {line.side}" if line.side is not Side.NONE else "")
        + (f" x{line.quantity}" if line.quantity != 1 else "")
        for line in lines
    )


def read_targets(text: str) -> tuple[Target, ...]:
    return tuple(
        Target(
            code(match["code"]),
            Side(match["side"].upper()) if match["side"] else None,
            Wanted(match["wanted"] or "ready"),
        )
        for match in _each(text, _TARGET, "CODE, CODE L or CODE L shown, parted by commas")
    )


def write_targets(targets: tuple[Target, ...]) -> str:
    return ", ".join(
        " ".join(filter(None, (t.code, t.side, t.wanted if t.wanted is Wanted.SHOWN else None))) for t in targets
    )


def read_ask(text: str) -> Ask:
    """``ABS-BLACK`` asks for that material, ``any ABS`` for the polymer in any colour."""
    if text.lower().startswith("any "):
        return Ask(None, code(text[4:]))
    return Ask(code(text), None)


def write_ask(ask: Ask) -> str:
    return ask.material or f"any {ask.polymer}"


def read_codes(text: str) -> tuple[str, ...]:
    return tuple(code(piece) for piece in re.split(r"[,\s]+", text.strip()) if piece)


def write_codes(codes: tuple[str, ...]) -> str:
    return ", ".join(codes)
