"""The shape of a phrase, taken apart once."""

import re
from dataclasses import dataclass
from functools import cache

from buildlog.intake.quick.phrases import PHRASES, Phrase
from buildlog.proposals.field import Field, Kind, fields_of
from buildlog.proposals.wishes import wishes

_CLAUSE = re.compile(r"(?P<bare>\()?(?P<words>[\w|]+)\)? \{(?P<slot>[^}]*)\}")
_ELEMENT = re.compile(r"\[(?P<clause>[^]]*)\]|\((?P<maybe>[^)]*)\)|\{(?P<slot>[^}]*)\}|(?P<word>\S+)")


_LABELS = {
    "pieces": "piece or part",
    "marked or part": "piece or part",
    "running print": "printer or print that runs",
    "position": "position",
    "ordered": "things",
    "counted": "things",
}


@dataclass(frozen=True, slots=True)
class Literal:
    """One of these words, in small letters; ``optional`` ones may be left out."""

    words: tuple[str, ...]
    optional: bool


@dataclass(frozen=True, slots=True)
class Slot:
    """A field, and what it is found as: a noun, or the kind of the field."""

    name: str
    sort: str
    label: str
    optional: bool
    field: Field


@dataclass(frozen=True, slots=True)
class Clause:
    """What may come in any order after the verb: one of ``words``, then a slot; ``bare``: without the words too."""

    words: tuple[str, ...]
    slot: Slot
    bare: bool


@dataclass(frozen=True, slots=True)
class Shape:
    """``elements`` in order; the first literal that must be there is the verb."""

    phrase: Phrase
    elements: tuple[Literal | Slot, ...]
    clauses: tuple[Clause, ...]

    @property
    def verbs(self) -> tuple[str, ...]:
        return next(e.words for e in self.elements if isinstance(e, Literal) and not e.optional)

    @property
    def begins_with_verb(self) -> bool:
        first = self.elements[0]
        return isinstance(first, Literal) and not first.optional


@cache
def shapes() -> tuple[Shape, ...]:
    return tuple(_shape(phrase) for phrase in PHRASES)


def _shape(phrase: Phrase) -> Shape:
    fields = {field.name: field for field in fields_of(wishes()[phrase.wish])}
    elements: list[Literal | Slot] = []
    clauses: list[Clause] = []
    for match in _ELEMENT.finditer(phrase.shape):
        if match["clause"]:
            clauses.append(_clause(match["clause"], fields))
        elif match["slot"]:
            elements.append(_slot(match["slot"], fields))
        else:
            words = match["maybe"] or match["word"]
            elements.append(Literal(tuple(words.split("|")), bool(match["maybe"])))
    return Shape(phrase, tuple(elements), tuple(clauses))


def _clause(text: str, fields: dict[str, Field]) -> Clause:
    match = _CLAUSE.fullmatch(text)
    assert match is not None, text
    return Clause(tuple(match["words"].split("|")), _slot(f"{match['slot']}?", fields), bool(match["bare"]))


def _slot(text: str, fields: dict[str, Field]) -> Slot:
    name, _, noun = text.removesuffix("?").partition(":")
    field = fields[name]
    sort = noun or ("pieces" if field.refers == "lot" else field.refers or field.kind.value)
    label = field.label if field.kind is not Kind.REFERENCE else field.refers
    return Slot(name, sort, _LABELS.get(sort, label), text.endswith("?"), field)
