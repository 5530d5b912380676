"""One field of what can be asked: how it is called, read from text, shown, and what can be wrong with it.

Text comes from forms, commands, build sheets and CSV cells; values go to the record in its own units:
grams become milligrams, hours and minutes become minutes, money becomes minor units,
millimetres become micrometres.
"""

import dataclasses
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from functools import cache
from typing import Any

from buildlog.proposals import limits


class Kind(StrEnum):
    TEXT = "text"
    LONG_TEXT = "long text"
    CODE = "code"
    REFERENCE = "reference"
    WHOLE = "whole number"
    DECIMAL = "number"
    GRAMS = "grams"
    DURATION = "duration"
    MONEY = "money"
    MM = "millimetres"
    DENSITY = "density"
    PERCENT = "percent"
    YES_NO = "yes or no"
    CHOICE = "choice"
    MOMENT = "moment"
    LINES = "lines"


_UNITS = {
    Kind.GRAMS: "g",
    Kind.DURATION: "h:mm",
    Kind.MM: "mm",
    Kind.PERCENT: "%",
    Kind.DENSITY: "g/cm³",
}
_MOST = {
    Kind.GRAMS: limits.MOST_GRAMS,
    Kind.DURATION: limits.LONGEST,
    Kind.DENSITY: limits.DENSEST,
    Kind.MM: limits.LARGEST,
    Kind.MONEY: limits.DEAREST,
    Kind.WHOLE: limits.MOST_THINGS,
}
_SCALES = {Kind.GRAMS: 1000, Kind.MONEY: 100, Kind.MM: 1000, Kind.DENSITY: 1000}
_COLUMN_ENDINGS = {
    Kind.GRAMS: "_mg",
    Kind.DURATION: "_minutes",
    Kind.MONEY: "_minor",
    Kind.MM: "_um",
    Kind.DENSITY: "_mg_cm3",
    Kind.PERCENT: "_percent",
    Kind.REFERENCE: "_id",
    Kind.MOMENT: "_at",
}
CODE_SHAPE = re.compile(r"[A-Z0-9][A-Z0-9._-]{0,23}")
_DURATION = re.compile(r"(?:(\d+)\s*d)?\s*(?:(\d+)\s*h)?\s*(?:(\d+)\s*(?:m|min)?)?")
_SIDES_IN_WORDS = {"left": "l", "right": "r"}
_YES = frozenset({"yes", "y", "true", "1", "x"})
_NO = frozenset({"no", "n", "false", "0", "-"})
LONGEST_TEXT = 200
LONGEST_NOTE = 4000
LONGEST_QUOTE = 60
LONGEST_LIST = 20_000
DAY = 24 * 60
LONGEST_MINUTES = 366 * DAY
"""A year. Our choice: nothing at a bench or on a printer takes longer, and dates reckoned from it stay dates."""


@dataclass(frozen=True, slots=True)
class Field:
    """``refers`` names the noun whose codes a reference (or the lines) may hold; ``read`` parses lines.

    A noun's field is kept in ``column`` of the noun's own row, unless it is ``apart``: in rows of other
    tables, or not as it was typed. A moment may lie ahead only where ``future`` is set.
    """

    name: str
    label: str
    kind: Kind
    required: bool = False
    default: Any = None
    choices: tuple[str, ...] = ()
    refers: str = ""
    help: str = ""
    caution: str = ""
    least: int | None = None
    most: int | None = None
    future: bool = False
    apart: bool = False
    column: str = ""
    read: Callable[[str], Any] | None = None
    write: Callable[[Any], str] | None = None

    @property
    def unit(self) -> str:
        return _UNITS.get(self.kind, "")

    @property
    def stored_as(self) -> str:
        """The column that holds it: the name with the unit at its end, as in all tables."""
        if self.column:
            return self.column
        ending = _COLUMN_ENDINGS.get(self.kind, "")
        if self.name.endswith(ending):
            return self.name
        return self.name.removesuffix("_time" if self.kind is Kind.DURATION else "") + ending

    def parse(self, text: str) -> Any:
        """The value behind a text, None for one that says nothing; ValueError says what was expected."""
        text = text.strip()
        if not text:
            return None
        self._check_length(text)
        value = self._value(text)
        if isinstance(value, int | float) and not isinstance(value, bool):
            self._check_bounds(value)
        return None if value in ("", ()) else value

    def show(self, value: Any) -> str:
        """The value as a person would type it; parses back to the same value."""
        if value is None:
            return ""
        if self.write:
            return self.write(value)
        if isinstance(value, bool):
            return "yes" if value else "no"
        if self.kind in _SCALES:
            return plain(Decimal(value) / _SCALES[self.kind])
        if self.kind is Kind.DURATION:
            return f"{value // 60}:{value % 60:02d}"
        return str(value)

    def offered(self, value: Any) -> str:
        """As `show`, money with both its decimals: how a form and a list say it, where no text is compared."""
        if self.kind is Kind.MONEY and value is not None:
            return f"{Decimal(value) / _SCALES[self.kind]:.2f}"
        return self.show(value)

    def _value(self, text: str) -> Any:
        if self.read:
            return self.read(text)
        match self.kind:
            case Kind.TEXT | Kind.LONG_TEXT | Kind.MOMENT:
                return printable(text, LONGEST_NOTE if self.kind is Kind.LONG_TEXT else LONGEST_TEXT)
            case Kind.CODE | Kind.REFERENCE:
                return code(text)
            case Kind.WHOLE | Kind.PERCENT:
                return whole(text)
            case Kind.DECIMAL:
                return float(number(text))
            case Kind.GRAMS | Kind.MONEY | Kind.MM | Kind.DENSITY:
                return scaled(text, _SCALES[self.kind])
            case Kind.DURATION:
                return duration(text)
            case Kind.YES_NO:
                return yes_no(text)
            case _:
                return self._choice(text)

    def _choice(self, text: str) -> str:
        wanted = _bare(text)
        for known in self.choices:
            if _bare(known) in (wanted, _SIDES_IN_WORDS.get(wanted)):
                return known
        raise ValueError(f"«{text}» is none of: {', '.join(self.choices)}")

    def _check_length(self, text: str) -> None:
        """Before it is read: what is quoted in a message is short, and long runs of digits cost time."""
        if self.read is None and self.kind in (Kind.TEXT, Kind.LONG_TEXT):
            return  # measured when it is cleaned
        longest = LONGEST_LIST if self.kind is Kind.LINES else LONGEST_TEXT
        if len(text) > longest:
            raise ValueError(f"is longer than {longest} characters")

    def _check_bounds(self, value: float) -> None:
        beyond = self.beyond(value)
        if beyond:
            raise ValueError(beyond)

    def beyond(self, value: float) -> str:
        """Which limit a figure goes beyond, with its unit; empty where it goes beyond none."""
        if self.least is not None and value < self.least:
            return f"must be at least {self._in_unit(self.least)}"
        if self.most is not None and value > self.most:
            return f"must be at most {self._in_unit(self.most)}"
        return ""

    def _in_unit(self, limit: int) -> str:
        if self.kind is Kind.DURATION:
            return f"{limit // DAY} days" if limit >= 2 * DAY else self.show(limit)
        return f"{self.show(limit)} {self.unit}".strip()


def _bare(choice: str) -> str:
    """Without case, and with dashes and underscores for spaces: ``still-good`` needs no quotes in a shell."""
    return re.sub(r"[\s_-]+", " ", choice.strip().lower())


def asks(label: str, kind: Kind, **given: Any) -> Any:
    """A dataclass field that carries its Field; required unless a default is given (None counts too).

    A figure has the limit of its kind, unless ``most`` gives it another one.
    """
    required = "default" not in given
    default = given.pop("default", None)
    if kind in _MOST and not given.get("refers"):
        given.setdefault("most", _MOST[kind])
    described = Field("", label, kind, required=required, default=default, **given)
    if required:
        return dataclasses.field(metadata={"field": described}, kw_only=True)
    return dataclasses.field(default=default, metadata={"field": described}, kw_only=True)


def fields_of(proposal: type[Any]) -> tuple[Field, ...]:
    """The table of fields of a proposal or a noun's form."""
    asked: Any = proposal  # mypy does not take a type for hashable
    return _table_of(asked)


@cache
def _table_of(proposal: Any) -> tuple[Field, ...]:
    return tuple(
        dataclasses.replace(f.metadata["field"], name=f.name)
        for f in dataclasses.fields(proposal)
        if "field" in f.metadata
    )


def printable(text: str, longest: int) -> str:
    """Text without control or text-direction characters; ValueError when it is too long."""
    cleaned = "".join(c if unicodedata.category(c) not in ("Cc", "Cf", "Cs", "Co", "Cn") else " " for c in text)
    cleaned = " ".join(cleaned.split())
    if len(cleaned) > longest:
        raise ValueError(f"is longer than {longest} characters")
    return cleaned


def quoted(text: str) -> str:
    """What was typed, as a message repeats it: whatever its length, a few words of it."""
    return f"«{text}»" if len(text) <= LONGEST_QUOTE else f"«{text[:LONGEST_QUOTE]}…»"


def code(text: str) -> str:
    """A code: capital letters, digits, dot, dash and underscore, at most 24."""
    wanted = text.strip().upper()
    if not CODE_SHAPE.fullmatch(wanted):
        raise ValueError(f"{quoted(text)} is no code: use letters, digits, dot, dash, underscore, at most 24")
    return wanted


def number(text: str) -> Decimal:
    """A number with decimal point, or a decimal comma where it is unambiguous."""
    plain_text = text.replace(" ", "").replace("\u00a0", "")
    if re.fullmatch(r"[+-]?[1-9]\d{0,2}(,\d{3})+", plain_text):
        raise ValueError(f"«{text}» is ambiguous: write the decimals with a point, thousands without a comma")
    if plain_text.count(",") == 1 and "." not in plain_text:
        plain_text = plain_text.replace(",", ".")
    try:
        value = Decimal(plain_text)
    except InvalidOperation:
        raise ValueError(f"«{text}» is no number") from None
    if not value.is_finite() or abs(value) > 10**12:
        raise ValueError(f"«{text}» is no number that can be kept")
    return value


def whole(text: str) -> int:
    value = number(text)
    if value != value.to_integral_value():
        raise ValueError(f"«{text}» is no whole number")
    return int(value)


def scaled(text: str, scale: int) -> int:
    """A number times scale, rounded half even to a whole one."""
    return int((number(text) * scale).to_integral_value())


def duration(text: str) -> int:
    """Minutes from ``2:30``, ``2h30``, ``2.5 h``, ``150 min`` or ``1d 4h``; a bare number is minutes."""
    minutes = _minutes(text)
    if minutes > LONGEST_MINUTES:
        raise ValueError(f"«{text}» is longer than a year: write 2:30, 2h30, 2.5 h or 150 min")
    return minutes


def _minutes(text: str) -> int:
    clock = re.fullmatch(r"(\d+):([0-5]\d)", text)
    if clock:
        return int(clock[1]) * 60 + int(clock[2])
    hours = re.fullmatch(r"([\d.,]+)\s*h", text)
    if hours:
        return scaled(hours[1], 60)
    parts = _DURATION.fullmatch(text)
    if not parts or not any(parts.groups()):
        raise ValueError(f"«{text}» is no duration: write 2:30, 2h30, 2.5 h or 150 min")
    days, hour, minutes = (int(part or 0) for part in parts.groups())
    return (days * 24 + hour) * 60 + minutes


def yes_no(text: str) -> bool:
    if text.lower() in _YES:
        return True
    if text.lower() in _NO:
        return False
    raise ValueError(f"«{text}» is neither yes nor no")


def plain(value: Decimal) -> str:
    """A decimal without exponent or trailing zeros."""
    text = format(value, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
