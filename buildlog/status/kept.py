"""Answers of an earlier moment that still hold, so that only what changed since is computed anew.

An answer names the nouns that it reads and the other answers that it rests on. It is taken over as it is where all of
these are the very same objects: a reading that finds a noun unchanged gives the same rows again, and an answer that
comes out as it was before is replaced by the one from before, so that what rests on it holds too.
"""

from collections.abc import Callable, Iterable
from dataclasses import fields, is_dataclass
from functools import cache
from itertools import chain
from operator import attrgetter
from typing import Any, NamedTuple, TypeVar, get_args, get_type_hints

from buildlog.facts.snapshot import Snapshot
from buildlog.terms import Moment

K = TypeVar("K")
V = TypeVar("V")
T = TypeVar("T")
Nouns = tuple[str, ...]
ALWAYS: Nouns = ("settings", "reference")
"""Few and hardly ever changed: every answer may read them."""


class _Told(NamedTuple):
    """An answer, when it was given, and the very objects that it was made of."""

    now: Moment
    made_of: tuple[Any, ...]
    answer: Any


class _Coming(NamedTuple):
    """Moments later than ``since`` among the rows of one noun."""

    rows: Any
    since: Moment
    moments: tuple[Moment, ...]


class Kept:
    """The answers of one Status; ``before`` are those of an earlier one, of which nothing else is held."""

    def __init__(self, snapshot: Snapshot, now: Moment, before: "Kept | None" = None) -> None:
        self._snapshot, self._now = snapshot, now
        self._told: dict[str, _Told] = dict(before._told) if before else {}
        self._coming: dict[str, _Coming] = dict(before._coming) if before else {}

    def ask(
        self,
        name: str,
        reads: Nouns,
        rests_on: Iterable[object],
        answer: Callable[[], T],
        moves: bool = False,
    ) -> T:
        """The answer of that name. Unless it ``moves``, time changes it only where now has reached a moment of the
        nouns that it reads, that is, it asks of them no more than whether they are at or before now.
        """
        made_of = self._made_of(reads, rests_on)
        told = self._standing(name, made_of, reads, moves)
        if told is not None:
            return told.answer  # type: ignore[no-any-return]  # kept as it was made
        found, before = answer(), self._told.get(name)
        if before is not None and _is_alike(before.answer, found):
            found = before.answer
        self._told[name] = _Told(self._now, made_of, found)
        return found

    def ask_each(
        self,
        name: str,
        reads: Nouns,
        rests_on: Iterable[object],
        items: dict[K, V],
        answer: Callable[[K, V], T],
    ) -> dict[K, T]:
        """The answer to each item, in their order. Where the rest stands, answers to items that equal those from
        before are taken over one by one.
        """
        made_of = self._made_of(reads, rests_on)
        told = self._standing(name, made_of, reads, False)
        then, known = told.answer if told is not None else ({}, {})
        if then is items:
            return known  # type: ignore[no-any-return]  # kept as it was made
        found = {
            key: known[key] if key in then and then[key] == item else answer(key, item) for key, item in items.items()
        }
        if told is not None and _is_alike_by_item(known, found):
            found = known
        self._told[name] = _Told(self._now, made_of, (items, found))
        return found

    def _made_of(self, reads: Nouns, rests_on: Iterable[object]) -> tuple[Any, ...]:
        return (*(getattr(self._snapshot, noun) for noun in (*ALWAYS, *reads)), *rests_on)

    def _standing(self, name: str, made_of: tuple[Any, ...], reads: Nouns, moves: bool) -> _Told | None:
        """What was told before, if it was made of the very same and time has not changed it."""
        told = self._told.get(name)
        if told is not None and _are_same(told.made_of, made_of) and self._is_still_so(told.now, reads, moves):
            return told
        return None

    def _is_still_so(self, then: Moment, reads: Nouns, moves: bool) -> bool:
        if then == self._now:
            return True
        return not moves and then < self._now and not any(self._has_come(noun, then) for noun in reads)

    def _has_come(self, noun: str, then: Moment) -> bool:
        """Whether a moment of these rows lies after then and not after now."""
        rows = getattr(self._snapshot, noun)
        coming = self._coming.get(noun)
        if coming is None or coming.rows is not rows or coming.since > then:
            coming = self._coming[noun] = _Coming(rows, then, _moments_after(rows, then))
        return any(then < moment <= self._now for moment in coming.moments)


def _are_same(some: tuple[Any, ...], others: tuple[Any, ...]) -> bool:
    return len(some) == len(others) and all(one is other for one, other in zip(some, others, strict=True))


def _is_alike_by_item(one: dict[Any, Any], other: dict[Any, Any]) -> bool:
    """The very same answers under the same keys in the same order."""
    return len(one) == len(other) and all(
        key == other_key and value is other_value
        for (key, value), (other_key, other_value) in zip(one.items(), other.items(), strict=True)
    )


def _is_alike(one: Any, other: Any) -> bool:
    """Equal, and in the same order too."""
    if type(one) is not type(other):
        return False
    if isinstance(one, dict):
        return list(one.items()) == list(other.items())
    if is_dataclass(one):
        return all(_is_alike(getattr(one, f.name), getattr(other, f.name)) for f in fields(one))
    return bool(one == other)


def _moments_after(rows: tuple[Any, ...], then: Moment) -> tuple[Moment, ...]:
    if not rows:
        return ()
    row: Any = type(rows[0])
    told = chain.from_iterable(map(column, rows) for column in _moment_columns(row))
    return tuple(filter(then.__lt__, filter(None, told)))


@cache
def _moment_columns(row: type[Any]) -> tuple[Callable[[Any], Moment | None], ...]:
    hints = get_type_hints(row).items()
    return tuple(attrgetter(name) for name, hint in hints if hint is Moment or Moment in get_args(hint))
