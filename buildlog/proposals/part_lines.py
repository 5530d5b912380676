"""Parts of an assembly, one in a line: ``FL07 shin handed x2 2:30 45g ABS-BLACK``."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from buildlog.proposals.field import code, duration, plain, printable, quoted, scaled
from buildlog.terms import SideRule

LINE_SHAPE = "FL07 shin handed x2 2:30 45g ABS-BLACK; a code alone: a part that is there already"
LONGEST_NAME = 200
MOST_PIECES = 10_000
_NOT_USUAL = tuple(rule for rule in SideRule if rule is not SideRule.AS_POSITION)


@dataclass(frozen=True, slots=True)
class NewPart:
    """A part with its usage; without a name it is one that is there. Print time in minutes, grams in milligrams."""

    code: str
    name: str = ""
    handed: bool = False
    quantity: int = 1
    side_rule: SideRule = SideRule.AS_POSITION
    print_time: int | None = None
    grams: int | None = None
    material: str | None = None


def _quantity(match: re.Match[str]) -> dict[str, Any]:
    pieces = int(match[1] or match[2])
    if not 1 <= pieces <= MOST_PIECES:
        raise ValueError(f"a quantity of {pieces}: write x1 to x{MOST_PIECES}")
    return {"quantity": pieces}


def _rule(match: re.Match[str]) -> dict[str, Any]:
    return {"side_rule": next(rule for rule in _NOT_USUAL if rule.lower() == match[1].lower())}


def _weight(match: re.Match[str]) -> dict[str, Any]:
    of = {"material": code(match[2])} if match[2] else {}
    return {"grams": scaled(match[1], 1000), **of}


_SPAN = r"\d+:[0-5]\d|(?:\d+\s*d\s*)?\d+\s*h(?:\s*\d+(?:\s*m(?:in)?)?)?|\d[\d.,]*\s*h|\d+\s*m(?:in)?"
_ENDS: tuple[tuple[str, Callable[[re.Match[str]], dict[str, Any]]], ...] = (
    (r"[x×]\s*(\d{1,6})|(\d{1,6})\s*[x×]", _quantity),
    (r"handed", lambda _: {"handed": True}),
    (f"({'|'.join(_NOT_USUAL)})", _rule),
    (f"({_SPAN})", lambda match: {"print_time": duration(match[1].lower())}),
    (r"(\d[\d.,]*)\s*g(?:\s+(?:of\s+)?([a-z][\w.-]*))?", _weight),
)
"""What may stand behind the name, in any order; the material right behind the grams."""
_ENDINGS = tuple((re.compile(rf"(?:^|[\s,;])(?:{shape})$", re.IGNORECASE), read) for shape, read in _ENDS)
_LENGTH = r"[\d.,]+(?:[x×][\d.,]+)*\s*[cm]m(?!\S)"
_FIGURE = re.compile(rf"(?<!\S)(?!{_LENGTH})[x×]?\d", re.IGNORECASE)
"""What is no part of a name, as a length («12 cm») or a size («M4») is."""
_BETWEEN = re.compile(r"[;\n]|,(?!\d)")


def read_new_part(text: str) -> NewPart:
    first, _, rest = text.strip().partition(" ")
    found: dict[str, Any] = {}
    rest = rest.strip(" ,;")
    while (ending := _ending(rest)) is not None:
        told, said, rest = ending
        if told.keys() & found.keys():
            raise ValueError(f"{quoted(said)} says twice what is said once: write {LINE_SHAPE}")
        found |= told
    figure = _FIGURE.search(rest)
    if figure is not None:
        raise ValueError(
            f"{quoted(rest[figure.start() :])} is not understood: write {LINE_SHAPE} "
            "(a figure in the name behind a letter, as spoke-2)"
        )
    return NewPart(code(first.rstrip(",;")), printable(rest, LONGEST_NAME), **found)


def _ending(text: str) -> tuple[dict[str, Any], str, str] | None:
    """The last thing told behind the name: what it tells, its words, and what stands before it."""
    for shape, read in _ENDINGS:
        match = shape.search(text)
        if match:
            return read(match), match[0].strip(" ,;"), text[: match.start()].rstrip(" ,;")
    return None


def figures_behind(name: str) -> str:
    """The end of a name that a line of parts would read as figures: «x3, 2:30» of «cross member x3, 2:30»."""
    rest = name
    while (ending := _ending(rest)) is not None:
        rest = ending[2]
    return name[len(rest) :].strip(" ,;")


def write_new_part(part: NewPart) -> str:
    told = [part.code, part.name]
    told += ["handed"] if part.handed else []
    told += [part.side_rule] if part.side_rule is not SideRule.AS_POSITION else []
    told += [f"x{part.quantity}"] if part.quantity != 1 else []
    told += [f"{part.print_time // 60}:{part.print_time % 60:02d}"] if part.print_time is not None else []
    told += [f"{plain(Decimal(part.grams) / 1000)}g"] if part.grams is not None else []
    told += [part.material] if part.material is not None else []
    return " ".join(word for word in told if word)


def read_new_parts(text: str) -> tuple[NewPart, ...]:
    """Parted by commas or lines, where a comma parts what belongs to one part too; no code twice."""
    lines: list[str] = []
    for piece in filter(None, (piece.strip() for piece in _BETWEEN.split(text))):
        if lines and _tells_figures(piece):
            lines[-1] += f" {piece}"
        else:
            lines.append(piece)
    parts = tuple(map(read_new_part, lines))
    codes = [part.code for part in parts]
    twice = next((each for each in codes if codes.count(each) > 1), None)
    if twice is not None:
        raise ValueError(f"{twice} is there twice: say how many with x2")
    return parts


def _tells_figures(piece: str) -> bool:
    """Whether it is figures and nothing else, and so belongs to the part before it."""
    while (ending := _ending(piece)) is not None:
        piece = ending[2]
    return not piece


def write_new_parts(parts: tuple[NewPart, ...]) -> str:
    return ", ".join(write_new_part(part) for part in parts)
