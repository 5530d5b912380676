"""A place in a line, and what is found there."""

from collections.abc import Iterator
from typing import Any, NamedTuple

from buildlog.intake.quick.known import Known
from buildlog.intake.quick.shapes import Slot
from buildlog.intake.quick.words import ARTICLES, Word
from buildlog.proposals.moments import MomentReader

MOST_WORDS = 6


class Context(NamedTuple):
    known: Known
    read: MomentReader


class Reading(NamedTuple):
    """The words before ``end`` tell ``value``; where several are meant, their names are the ``choices``.

    ``unfinished``: the words end within the value, and tell none yet.
    """

    end: int
    value: Any
    choices: tuple[str, ...] = ()
    unfinished: bool = False


class Here(NamedTuple):
    """The words from ``start`` on, and the slot that they may tell."""

    words: tuple[Word, ...]
    start: int
    slot: Slot
    context: Context

    def spans(self, start: int, most: int = MOST_WORDS) -> Iterator[tuple[int, tuple[Word, ...]]]:
        """(end, words) from ``start`` on, longest first."""
        for end in range(min(len(self.words), start + most), start, -1):
            yield end, self.words[start:end]

    def after_article(self, noun: str = "") -> int:
        """Where the name itself begins: «the», and the noun, may come before it."""
        skipped, start = {*ARTICLES, *noun.split()}, self.start
        while start + 1 < len(self.words) and self.words[start].bare in skipped:
            start += 1
        return start
