"""Lays a line along the shape of a phrase: every way in which it fits, with what is left open."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from buildlog.intake.quick.here import Context, Here
from buildlog.intake.quick.shapes import Clause, Literal, Shape, Slot
from buildlog.intake.quick.values import readings
from buildlog.intake.quick.words import Word

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
    missing: tuple[Slot, ...]
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
        self, at: int, element: int, told: tuple[Told, ...], missing: tuple[Slot, ...], used: frozenset[int]
    ) -> Iterator[tuple[tuple[Told, ...], tuple[Slot, ...], int]]:
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
            if here.optional:
                yield from self._from(at, element + 1, told, missing, used)
            return
        for reading in readings(Here(self.words, at, here, self.context)):
            now = (*told, Told(here, reading.value, reading.choices))
            yield from self._from(reading.end, element + 1, now, missing, used)
        if here.optional:
            yield from self._from(at, element + 1, told, missing, used)
        elif verb_said:
            yield from self._from(at, element + 1, told, (*missing, here), used)

    def _clauses(
        self, at: int, element: int, told: tuple[Told, ...], missing: tuple[Slot, ...], used: frozenset[int]
    ) -> Iterator[tuple[tuple[Told, ...], tuple[Slot, ...], int]]:
        for number, clause in enumerate(self.shape.clauses):
            if number in used:
                continue
            if at >= len(self.words):
                if not missing:
                    self.expected.append(clause)
                continue
            if self.words[at].bare not in clause.words:
                continue
            if at + 1 >= len(self.words) and not missing:
                self.expected.append(clause.slot)
            for reading in readings(Here(self.words, at + 1, clause.slot, self.context)):
                now = (*told, Told(clause.slot, reading.value, reading.choices))
                yield from self._from(reading.end, element, now, missing, used | {number})
