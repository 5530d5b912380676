"""What a Grid shows: columns, rows and cells, all frozen, all without a colour.

Column("part", "Part", share=2, least=12, priority=0)
Column("left", "Left", width=7, align=Align.RIGHT, priority=2)
GridRow("SP-04", (Cell("Amber PLA"), Cell("412 g", Tone.CAUTION)))
group_row("printer:M1", "Big bed")
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from enum import StrEnum
from typing import Any, Protocol, TypeVar

from rich.segment import Segment

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.cells import Align
from buildlog.screens.widgets.spread import spread
from buildlog.screens.widgets.tones import SIGNS, Brush, Tone

T = TypeVar("T")
Spans = tuple[tuple[str, Tone], ...]


class Painted(Protocol):
    """Anything that can stand in a cell of a Grid."""

    def words(self) -> str:
        """The plain text, which the filter looks in."""

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        """Segments of exactly `width` cells together."""


@frozen
class Cell:
    """One text in one tone, the tone's sign before it; `sign=""` leaves that out where the text says it."""

    text: str
    tone: Tone = Tone.PLAIN
    sign: str | None = None

    def words(self) -> str:
        return self.text

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        sign = SIGNS.get(self.tone, "") if self.sign is None else self.sign
        text = f"{sign} {self.text}" if sign and self.text else self.text or sign
        return spread(((text, self.tone),), width, align, brush)


@frozen
class SpanCell:
    """Texts of several tones in one cell: `SpanCell((("412 g", Tone.STRONG), (" ±9", Tone.FAINT)))`."""

    spans: Spans

    def words(self) -> str:
        return "".join(text for text, _ in self.spans)

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        return spread(self.spans, width, align, brush)


class LateCell:
    """A SpanCell whose texts are made of something when they are first drawn or looked for: for lists of thousands.

    Equal only to itself, so that two long lists are not compared line by line.
    """

    __slots__ = ("_make", "_of", "_spans")

    def __init__(self, make: Callable[[T], Spans], of: T) -> None:
        self._make: Callable[[Any], Spans] = make
        self._of: Any = of
        self._spans: Spans | None = None

    @property
    def spans(self) -> Spans:
        if self._spans is None:
            self._spans = self._make(self._of)
        return self._spans

    def words(self) -> str:
        return "".join(text for text, _ in self.spans)

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        return spread(self.spans, width, align, brush)


class Hint(StrEnum):
    """What a row is: one to choose, a heading over those that follow, or one that no longer counts."""

    ROW = "row"
    GROUP = "group"
    PAST = "past"


@frozen
class GridRow:
    """One line. `key` is unique in its grid; `depth` makes a tree of rows that follow each other."""

    key: str
    cells: tuple[Painted, ...]
    hint: Hint = Hint.ROW
    depth: int = 0

    @property
    def level(self) -> int:
        """Depth in the tree, with group rows above everything."""
        return -1 if self.hint is Hint.GROUP else self.depth

    def words(self) -> str:
        return " ".join(cell.words() for cell in self.cells).casefold()


def group_row(key: str, text: str) -> GridRow:
    """A heading line; the cursor steps over it."""
    return GridRow(key, (Cell(text, Tone.STRONG),), Hint.GROUP)


@frozen
class Column:
    """One column. With `width` it is fixed; without, it takes `share` of the rest, at least `least` cells.

    A `snug` one has `width` at most: no more than its widest cell takes.
    Priority 0 is never dropped; where the line is too short the highest number goes first.
    `tree` draws the row's depth and fold sign before the cell. `heading` replaces `title` by a painter.
    """

    id: str
    title: str = ""
    width: int | None = None
    share: int = 1
    least: int = 6
    priority: int = 0
    align: Align = Align.LEFT
    tree: bool = False
    snug: bool = False
    heading: Painted | None = None
