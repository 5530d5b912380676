"""Lays a line along the shape of a phrase: every way in which it fits, with what is left open."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from buildlog.intake.quick.here import Context, Here, Reading
from buildlog.intake.quick.shapes import Clause, Literal, Shape, Slot
from buildlog.intake.quick.values import readings
from buildlog.intake.quick.words import Word
from buildlog.proposals.field import Kind

MOST_WAYS = 400
"""Our choice: a line that fits a phrase in more ways is looked at no further."""


class Told(NamedTuple):
    slot: Slot
    value: Any
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Way:
    """One way to read a line as a phrase. ``unread`` are words that say nothing in it."""

    shape: Shape
    told: tuple[Told, ...]
    missing: tuple[Literal | Slot, ...]
    unread: tuple[Word, ...]

    @property
    def is_whole(self) -> bool:
        return not self.missing and not self.unread and not any(told.choices for told in self.told)

    @property
    def rank(self) -> tuple[bool, int, int, int, int]:
        """The greater, the better it says what the line says."""
        doubtful = sum(bool(told.choices) for told in self.told)
        return self.is_whole, -len(self.unread), -len(self.missing), -doubtful, len(self.told)


@dataclass(slots=True)
class Matcher:
    """Matches the words with a shape; ``expected`` gathers what could stand where the words end."""

    words: tuple[Word, ...]
    shape: Shape
    context: Context
    expected: list[Literal | Slot | Clause] = field(default_factory=list)
    _left: int = MOST_WAYS

    def ways(self) -> Iterator[Way]:
        for told, missing, end in self._from(0, 0, (), (), frozenset()):
            self._left -= 1
            if self._left < 0:
                return
            yield Way(self.shape, told, missing, self.words[end:])

    def _from(
        self, at: int, element: int, told: tuple[Told, ...], missing: tuple[Literal | Slot, ...], used: frozenset[int]
    ) -> Iterator[tuple[tuple[Told, ...], tuple[Literal | Slot, ...], int]]:
        elements = self.shape.elements
        verb_said = any(isinstance(e, Literal) and not e.optional for e in elements[:element])
        if verb_said:
            yield from self._clauses(at, element, told, missing, used)
        if element == len(elements):
            yield told, missing, at
            return
        here = elements[element]
        if at >= len(self.words) and not missing:
            self.expected.append(here)
        if isinstance(here, Literal):
            if at < len(self.words) and self.words[at].bare in here.words:
                yield from self._from(at + 1, element + 1, told, missing, used)
            elif verb_said and not here.optional:
                yield from self._from(at, element + 1, told, (*missing, here), used)
            if here.optional:
                yield from self._from(at, element + 1, told, missing, used)
            return
        said_already = any(one.slot.name == here.name for one in told)
        for reading in () if said_already else self._readings(at, here):
            now = (*told, Told(here, reading.value, reading.choices))
            yield from self._from(reading.end, element + 1, now, missing, used)
        if here.optional:
            yield from self._from(at, element + 1, told, missing, used)
        elif verb_said:
            yield from self._from(at, element + 1, told, (*missing, here), used)

    def _readings(self, at: int, slot: Slot) -> Iterator[Reading]:
        """What may be told from there on; free words leave alone what something else is told by."""
        free = slot.field.kind in (Kind.TEXT, Kind.LONG_TEXT) and slot.field.read is None
        if free and any(self._begins(at, clause) for clause in self.shape.clauses if clause.slot is not slot):
            return
        keywords = {word for clause in self.shape.clauses for word in clause.words}
        for reading in readings(Here(self.words, at, slot, self.context)):
            if reading.unfinished:
                self.expected.append(slot)
                continue
            goes_on = reading.end < len(self.words) and self.words[reading.end - 1].bare in keywords
            if not (free and goes_on):
                yield reading

    def _begins(self, at: int, clause: Clause) -> bool:
        """Whether a clause, with its word, is told from there on."""
        here = Here(self.words, at + 1, clause.slot, self.context)
        return at < len(self.words) and self.words[at].bare in clause.words and any(True for _ in readings(here))

    def _clauses(
        self, at: int, element: int, told: tuple[Told, ...], missing: tuple[Literal | Slot, ...], used: frozenset[int]
    ) -> Iterator[tuple[tuple[Told, ...], tuple[Literal | Slot, ...], int]]:
        names = {one.slot.name for one in told}
        for number, clause in enumerate(self.shape.clauses):
            if number in used or clause.slot.name in names:
                continue
            if at >= len(self.words):
                if not missing:
                    self.expected.append(clause)
                continue
            named = self.words[at].bare in clause.words
            if named and at + 1 >= len(self.words) and not missing:
                self.expected.append(clause.slot)
            bare = clause.bare and element == len(self.shape.elements) and not missing
            for start in (*((at + 1,) if named else ()), *((at,) if bare else ())):
                for reading in self._readings(start, clause.slot):
                    now = (*told, Told(clause.slot, reading.value, reading.choices))
                    yield from self._from(reading.end, element, now, missing, used | {number})
