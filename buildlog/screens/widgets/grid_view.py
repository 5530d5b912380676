"""What of its rows a grid shows, and where its cursor stands: everything of a Grid but the drawing.

Cursor, marks and folds are kept by key, so that they survive a new set of rows.
"""

from __future__ import annotations

from collections.abc import Sequence

from buildlog.screens.widgets import sieve
from buildlog.screens.widgets.rows import GridRow, Hint


class GridView:
    """Rows, and the ones shown. `cursor` is a line among the shown, -1 where none can be stood on."""

    def __init__(self) -> None:
        self.rows: tuple[GridRow, ...] = ()
        self.shown: tuple[GridRow, ...] = ()
        self.cursor = -1
        self.filter_text = ""
        self._folded: set[str] = set()
        self._marks: set[str] = set()
        self._place: dict[str, int] = {}
        self._line: dict[str, int] = {}
        self._words: tuple[str, ...] | None = None  # read once, when first filtered

    @property
    def cursor_key(self) -> str | None:
        return self.shown[self.cursor].key if self.cursor >= 0 else None

    @property
    def count(self) -> int:
        """Rows shown, headings left out."""
        return sum(row.hint is not Hint.GROUP for row in self.shown)

    def set_rows(self, rows: Sequence[GridRow]) -> None:
        place = {row.key: i for i, row in enumerate(rows)}
        if len(place) != len(rows):
            twin = next(row.key for i, row in enumerate(rows) if place[row.key] != i)
            raise ValueError(f"two rows of a grid have the key {twin!r}")
        self.rows, self._place, self._words = tuple(rows), place, None
        self._marks &= place.keys()
        self._folded &= place.keys()
        self._show()

    def replace(self, row: GridRow) -> int | None:
        """Put this row in place of the one with its key; its line if shown. KeyError where there is none."""
        at = self._place[row.key]
        if self.filter_text or self.rows[at].level != row.level:
            self.set_rows((*self.rows[:at], row, *self.rows[at + 1 :]))
            return self._line.get(row.key)
        self.rows, self._words = (*self.rows[:at], row, *self.rows[at + 1 :]), None
        line = self._line.get(row.key)
        if line is not None:
            self.shown = (*self.shown[:line], row, *self.shown[line + 1 :])
        return line

    def set_filter(self, text: str) -> None:
        self.filter_text = text
        self._show()

    def can_stand_on(self, line: int) -> bool:
        return 0 <= line < len(self.shown) and self.shown[line].hint is not Hint.GROUP

    def put(self, line: int) -> None:
        """The cursor to this line, or the nearest one after or before that is no heading."""
        last = len(self.shown) - 1
        line = max(0, min(last, line))
        onward = range(line, last + 1)
        backward = range(line, -1, -1)
        self.cursor = next((i for r in (onward, backward) for i in r if self.can_stand_on(i)), -1)

    def move(self, lines: int) -> None:
        """The cursor by so many lines; over headings onward, or back where that would pass by a line of a page."""
        if self.cursor < 0:
            return
        goal = max(0, min(len(self.shown) - 1, self.cursor + lines))
        step = 1 if lines > 0 else -1
        onward = range(goal, len(self.shown) if step > 0 else -1, step)
        backward = range(goal, self.cursor, -step)
        ways = (onward, backward) if abs(lines) == 1 else (backward, onward)
        self.cursor = next((i for way in ways for i in way if self.can_stand_on(i)), self.cursor)

    def reveal(self, key: str) -> int | None:
        """Unfold and unfilter until this row is shown; its line, None where there is no such row."""
        if key not in self._place:
            return None
        if key not in self._line:
            self.filter_text = ""
            at: int | None = self._place[key]
            while at is not None:
                at = sieve.above(self.rows, at)
                if at is not None:
                    self._folded.discard(self.rows[at].key)
            self._show()
        return self._line[key]

    def folded(self, row: GridRow) -> bool | None:
        """Whether what is beneath the row is folded away; None where nothing is beneath."""
        if not sieve.has_beneath(self.rows, self._place[row.key]):
            return None
        return row.key in self._folded

    def fold(self) -> None:
        """Fold the row under the cursor, or go to the row above it where there is nothing to fold."""
        if self.cursor < 0:
            return
        row = self.shown[self.cursor]
        if self.folded(row) is False and not self.filter_text:
            self._folded.add(row.key)
            self._show()
        elif (above := sieve.above(self.shown, self.cursor)) is not None and self.can_stand_on(above):
            self.cursor = above

    def unfold(self) -> None:
        if (key := self.cursor_key) is not None and key in self._folded:
            self._folded.discard(key)
            self._show()

    def toggle_mark(self) -> bool:
        if (key := self.cursor_key) is None:
            return False
        self._marks ^= {key}
        return True

    def unmark(self) -> None:
        self._marks.clear()

    def is_marked(self, key: str) -> bool:
        return key in self._marks

    def marked_in_order(self) -> tuple[str, ...]:
        return tuple(sorted(self._marks, key=self._place.__getitem__))

    def _show(self) -> None:
        """Work out the shown rows anew; the cursor stays with its row, else with its line or the first found."""
        key, line = self.cursor_key, self.cursor
        wanted = self.filter_text.casefold().split()
        if wanted:
            if self._words is None:
                self._words = tuple(row.words() for row in self.rows)
            holds = zip(self.rows, self._words, strict=True)
            matches = {row.key for row, words in holds if all(word in words for word in wanted)}
            self.shown = sieve.found(self.rows, lambda row: row.key in matches)
            line = next((i for i, row in enumerate(self.shown) if row.key in matches), line)
        elif self._folded:
            self.shown = sieve.unfolded(self.rows, self._folded)
        else:
            self.shown = self.rows
        whole = self.shown is self.rows
        self._line = self._place if whole else {row.key: i for i, row in enumerate(self.shown)}
        self.put(self._line.get(key, line) if key is not None else line)
