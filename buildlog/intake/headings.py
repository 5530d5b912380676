"""Which field a heading or key means: by its name or label, with a unit where it can differ."""

import difflib
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from buildlog.intake.units import CLOCK, unit_named, units_of
from buildlog.proposals.field import Field, Kind

OtherNames = Callable[[Field], list[str]]
NEAR = 0.7
"""Likeness from which a name is offered; below it «Remarks» would become «grams» and «Filament» «length»."""
EVERYDAY = {
    "code": ("part no", "part number", "item no", "no", "id"),
    "name": ("description", "part name", "title"),
    "build": ("project",),
    "assembly": ("subassembly", "sub assembly"),
    "quantity": ("qty", "pcs", "count"),
    "pieces": ("qty", "pcs", "count", "quantity"),
    "handed": ("mirrored", "left right", "l r"),
    "material": ("filament",),
    "print_time": ("time", "printing time"),
    "bench_time": ("minutes",),
    "stock": ("on hand",),
    "lead_days": ("lead time",),
}
"""What spreadsheets of the trade call a field (common practice); a list's own names come first."""
_UNREAD = re.compile(r"\(.*\)")
_WITH_UNIT = re.compile(r"(.*?)\s*[(\[]([^()\[\]]*)[)\]]")


@dataclass(frozen=True, slots=True)
class Column:
    field: Field
    unit: str = ""


def plain_words(text: str) -> str:
    """``Print_Time`` as ``print time``: headings and names are told apart by their words only."""
    return " ".join(re.sub(r"[_\s-]+", " ", text).casefold().split())


def heading_of(field: Field) -> str:
    """How the field is headed in files that are written: its label, with the unit where it is not said already."""
    said = plain_words(field.label)
    unit = {Kind.GRAMS: "g", Kind.MM: "mm", Kind.DENSITY: "g/cm³", Kind.DURATION: CLOCK}.get(field.kind, "")
    if not unit or re.search(r"\bgrams\b", said):
        return field.label
    return f"{field.label} ({unit})"


class UnknownHeading(ValueError):
    """A heading that is no field of its list."""


class Headings:
    """Finds the fields of one list; ``thing`` at the head of a column means its code, unless a field is called so."""

    def __init__(self, what: str, fields: Iterable[Field], currency: str, thing: str = "") -> None:
        self.what, self.fields, self._currency = what, tuple(fields), currency
        self._names: dict[str, Field] = {}
        for field in self.fields:
            self._names.setdefault(plain_words(field.label), field)
            self._names.setdefault(plain_words(field.name), field)
        self._by_weight = self._others(_weight_names)
        self._names = self._others(_one_of_many) | self._names
        self._names = self._others(_everyday_names) | self._names
        if thing:
            self._names.setdefault(thing, next(field for field in self.fields if field.name == "code"))
        self._found: dict[str, Column | ValueError] = {}

    def find(self, heading: str) -> Column:
        """The field that is meant; UnknownHeading names the nearest ones, ValueError what is wrong with a unit."""
        if heading not in self._found:
            try:
                self._found[heading] = self._look_up(heading)
            except ValueError as error:
                self._found[heading] = error
        found = self._found[heading]
        if isinstance(found, ValueError):
            raise found.with_traceback(None)
        return found

    @property
    def all_told(self) -> str:
        """What could stand at the head of a column, as the end of a sentence; to be told once."""
        names = ", ".join(field.label for field in self.fields)
        return f"; it has {names}; a heading in brackets leaves its column unread"

    def knows(self, heading: str) -> bool:
        try:
            self.find(heading)
        except ValueError:
            return False
        return True

    def _others(self, other_names: OtherNames) -> dict[str, Field]:
        """Further names of fields, without those that more than one could be called by."""
        found: dict[str, list[Field]] = {}
        for field in self.fields:
            for name in {plain_words(name) for name in other_names(field)} - {""}:
                found.setdefault(name, []).append(field)
        return {name: fields[0] for name, fields in found.items() if len(fields) == 1 and name not in self._names}

    def _look_up(self, heading: str) -> Column:
        written = heading.replace("(s)", "s").strip()
        field = self._names.get(plain_words(re.sub(r"[()\[\]]", " ", written)))
        if field is not None:
            return Column(field)
        base, unit = self._parted(written)
        field = self._names.get(base) or self._by_weight.get(base)
        if field is None:
            raise UnknownHeading(self._unknown(heading, base))
        known = unit_named(unit, field.kind, self._currency)
        if known is None:
            ways = ", ".join(f"{base} ({way})" for way in units_of(field.kind, self._currency)) or base
            said = f"«{unit}» is no unit of it" if unit else "its unit is missing"
            raise ValueError(f"{said}: write {ways}")
        return Column(field, known)

    def _parted(self, written: str) -> tuple[str, str]:
        """Words and unit of ``weight (kg)``, ``length [cm]`` or ``weight kg``."""
        match = _WITH_UNIT.fullmatch(written)
        if match:
            return plain_words(match[1]), match[2]
        words, _, last = plain_words(written).rpartition(" ")
        field = self._names.get(words) or self._by_weight.get(words)
        if field is not None and unit_named(last, field.kind, self._currency):
            return words, last
        return plain_words(written), ""

    def _unknown(self, heading: str, base: str) -> str:
        near = difflib.get_close_matches(base, [*self._names, *self._by_weight], 3, NEAR)
        hint = f": did you mean {', '.join(f'«{name}»' for name in near)}?" if near else ""
        return f"«{heading[:60]}» is no field of {self.what}{hint}"


def _weight_names(field: Field) -> list[str]:
    if field.kind is not Kind.GRAMS:
        return []
    return [
        re.sub(r"\bgrams\b", other, text)
        for text in (field.label, field.name.replace("_", " "))
        for other in ("weight", "")
        if re.search(r"\bgrams\b", text)
    ]


def is_unread(heading: str) -> bool:
    """Whether a person left a column out of the reading: its heading stands in brackets, as «(remarks)»."""
    return _UNREAD.fullmatch(heading.strip()) is not None


def _everyday_names(field: Field) -> list[str]:
    return list(EVERYDAY.get(field.name, ()))


def _one_of_many(field: Field) -> list[str]:
    """``spool`` where ``spools`` can hold several."""
    return [field.name.removesuffix("s")] if field.kind is Kind.LINES else []
