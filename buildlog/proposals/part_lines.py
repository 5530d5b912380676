"""Parts of an assembly, one in a line: ``FL07 shin handed x2 2:30 45g``."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from buildlog.proposals.field import code, duration, plain, printable, quoted, scaled
from buildlog.terms import SideRule

LINE_SHAPE = "FL07 shin handed x2 2:30 45g; a code alone: a part that is there already"
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


def _quantity(text: str) -> int:
    pieces = int(text)
    if not 1 <= pieces <= MOST_PIECES:
        raise ValueError(f"a quantity of {pieces}: write x1 to x{MOST_PIECES}")
    return pieces


def _rule(text: str) -> SideRule:
    return next(rule for rule in _NOT_USUAL if rule.lower() == text.lower())


_ENDS: tuple[tuple[str, re.Pattern[str], Callable[[str], Any]], ...] = (
    ("quantity", re.compile(r"[x×]\s*(\d{1,6})", re.IGNORECASE), _quantity),
    ("handed", re.compile(r"(handed)", re.IGNORECASE), lambda _: True),
    ("side_rule", re.compile(f"({'|'.join(_NOT_USUAL)})", re.IGNORECASE), _rule),
    ("print_time", re.compile(r"(\d+:[0-5]\d|\d+\s*h\s*\d*|[\d.]+\s*h|\d+\s*min)"), duration),
    ("grams", re.compile(r"([\d.]+)\s*g"), lambda text: scaled(text, 1000)),
)
"""What may stand behind the name, in any order."""


def read_new_part(text: str) -> NewPart:
    first, _, rest = text.strip().partition(" ")
    found: dict[str, Any] = {}
    while (ending := _ending(rest, found)) is not None:
        name, value, rest = ending
        found[name] = value
    return NewPart(code(first), printable(rest, LONGEST_NAME), **found)


def _ending(text: str, found: dict[str, Any]) -> tuple[str, Any, str] | None:
    """The last thing told behind the name: which, its value, and what stands before it."""
    for name, shape, read in _ENDS:
        match = re.search(rf"(?:^|\s){shape.pattern}\s*$", text, shape.flags)
        if match and name in found:
            raise ValueError(f"{quoted(match[0].strip())} says twice what is said once: write {LINE_SHAPE}")
        if match:
            return name, read(match[1]), text[: match.start()]
    return None


def write_new_part(part: NewPart) -> str:
    told = [part.code, part.name]
    told += ["handed"] if part.handed else []
    told += [part.side_rule] if part.side_rule is not SideRule.AS_POSITION else []
    told += [f"x{part.quantity}"] if part.quantity != 1 else []
    told += [f"{part.print_time // 60}:{part.print_time % 60:02d}"] if part.print_time is not None else []
    told += [f"{plain(Decimal(part.grams) / 1000)}g"] if part.grams is not None else []
    return " ".join(word for word in told if word)


def read_new_parts(text: str) -> tuple[NewPart, ...]:
    """Parted by commas or lines; no code twice."""
    parts = tuple(read_new_part(piece) for piece in re.split(r"[,;\n]", text) if piece.strip())
    codes = [part.code for part in parts]
    twice = next((each for each in codes if codes.count(each) > 1), None)
    if twice is not None:
        raise ValueError(f"{twice} is there twice: say how many with x2")
    return parts


def write_new_parts(parts: tuple[NewPart, ...]) -> str:
    return ", ".join(write_new_part(part) for part in parts)
