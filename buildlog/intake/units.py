"""Numbers as people keep them in sheets, turned into what a field reads: its own unit, a decimal point."""

import re
from decimal import Decimal

from buildlog.proposals.field import Field, Kind, number, plain

_ONE, _THOUSAND, _THOUSANDTH = Decimal(1), Decimal(1000), Decimal("0.001")
FACTORS: dict[Kind, dict[str, Decimal]] = {
    Kind.GRAMS: {"g": _ONE, "gram": _ONE, "grams": _ONE, "kg": _THOUSAND, "mg": _THOUSANDTH},
    Kind.MM: {"mm": _ONE, "cm": Decimal(10), "m": _THOUSAND, "\u00b5m": _THOUSANDTH, "um": _THOUSANDTH},
    Kind.DENSITY: {"g/cm³": _ONE, "g/cm3": _ONE, "kg/m³": _THOUSANDTH, "kg/m3": _THOUSANDTH},
    Kind.PERCENT: {"%": _ONE},
    Kind.DURATION: {
        "min": _ONE,
        "minutes": _ONE,
        "h": Decimal(60),
        "hours": Decimal(60),
        "d": Decimal(1440),
        "days": Decimal(1440),
    },
}
"""How many of the field's own unit one of these is; a duration is in minutes."""

CLOCK = "h:mm"
NUMBERS = (*FACTORS, Kind.MONEY, Kind.WHOLE, Kind.DECIMAL)
_SIGNS = {"€": "eur", "£": "gbp", "\u03bc": "\u00b5"}  # the Greek letter for the sign of micro
_MEASURED = re.compile(r"([+-]?[\d.,]+)([^\d.,:+-][^:]*)")
_TIMES = re.compile(r"(\d+):([0-5]\d)(?::([0-5]\d))?")
_LONG_NUMBER = re.compile(r"\d{16}")


def units_of(kind: Kind, currency: str) -> tuple[str, ...]:
    """The units that a heading or a cell may name for such a field."""
    if kind is Kind.MONEY:
        return (currency.lower(),)
    return (*FACTORS.get(kind, ()), *([CLOCK] if kind is Kind.DURATION else []))


def unit_named(text: str, kind: Kind, currency: str) -> str | None:
    """The unit that is meant, None where the kind has none of that name."""
    wanted = "".join(_SIGNS.get(c, c) for c in text.strip()).lower()
    return wanted if wanted in units_of(kind, currency) else None


def own_text(field: Field, text: str, unit: str, currency: str, comma: bool) -> str:
    """The cell as the field reads it; ``unit`` is the heading's, a cell that names its own goes by that.

    ``comma`` says that a comma is decimal in this file. ValueError says what is ambiguous.
    """
    counts = field.kind in NUMBERS or field.read is not None
    if counts and _LONG_NUMBER.search(text):
        raise ValueError("has a number in it that is larger than anything that is kept")
    if field.kind not in NUMBERS or field.read is not None or not text.strip():
        return text
    squeezed = re.sub(r"[\s\u00a0\u202f]+", "", text)
    if field.kind is Kind.DURATION and (":" in squeezed or not re.match(r"[+-]?[\d.,]", squeezed)):
        return _clock(text.strip(), squeezed, unit)
    measured = _MEASURED.fullmatch(squeezed)
    if measured:
        named = unit_named(measured[2], field.kind, currency)
        if named is None or named == CLOCK:
            return text
        squeezed, unit = measured[1], named
    digits = _pointed(squeezed, comma)
    if field.kind is Kind.DURATION and unit in FACTORS[Kind.DURATION]:
        return str(int((number(digits) * FACTORS[Kind.DURATION][unit]).to_integral_value()))
    factor = FACTORS.get(field.kind, {}).get(unit, Decimal(1))
    return digits if factor == 1 else plain(number(digits) * factor)


def _clock(text: str, squeezed: str, unit: str) -> str:
    match = _TIMES.fullmatch(squeezed)
    if match is None:
        return text
    if unit in ("min", "minutes"):
        raise ValueError(f"«{text}» is ambiguous under a heading in minutes: write the minutes as a number")
    minutes = int(match[1]) * 60 + int(match[2]) + (int(match[3] or 0) >= 30)
    return f"{minutes // 60}:{minutes % 60:02d}"


def _pointed(text: str, comma: bool) -> str:
    """A decimal point for the decimal comma, where the file has one."""
    if not comma:
        return text
    if re.fullmatch(r"[+-]?[1-9]\d{0,2}(\.\d{3})+,\d+|[+-]?[1-9]\d{0,2}(\.\d{3}){2,}", text):
        return text.replace(".", "").replace(",", ".")
    if re.fullmatch(r"[+-]?[1-9]\d{0,2}\.\d{3}", text):
        raise ValueError(
            f"«{text}» is ambiguous in a file with decimal commas: write {text.replace('.', '')} or "
            f"{text.replace('.', ',').rstrip('0').rstrip(',')}"
        )
    return text.replace(",", ".") if text.count(",") == 1 and "." not in text else text
