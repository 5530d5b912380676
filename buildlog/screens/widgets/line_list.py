"""A scrolled list of drawn lines with a heading above and a filter line below: how a grid is drawn and moved.

`Grid` in grid.py is what screens use; it adds keys and messages.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual.geometry import Size
from textual.scroll_view import ScrollView
from textual.strip import Strip

from buildlog.screens.own_keys import own_keys, with_keys
from buildlog.screens.widgets.columns import Placed, lay_out, snug, spilling, width_in_cells
from buildlog.screens.widgets.grid_lines import (
    GUTTER,
    LineLook,
    filter_line,
    header_line,
    row_line,
)
from buildlog.screens.widgets.grid_view import GridView
from buildlog.screens.widgets.rows import Column, GridRow, Hint
from buildlog.screens.widgets.span_line import empty_line


class LineList(ScrollView, can_focus=True):
    """Draws a GridView line by line; a move of the cursor repaints two lines, however many rows there are."""

    parted = False
    """Whether a rule follows the headings among the rows."""
    follower: Callable[[], None] | None = None
    """Called at once when the cursor has come to another row: what a message sets off is painted a frame later."""
    _look: LineLook | None = None

    def __init__(self, columns: Sequence[Column], empty: str, id: str | None, classes: str | None) -> None:
        super().__init__(id=id, classes=classes)
        self.view = GridView()
        self.columns = tuple(columns)
        self.empty = empty
        self.typing = False
        self._has_header = any(c.title or c.heading for c in columns)
        self._placed: tuple[int, tuple[GridRow, ...], tuple[Placed, ...]] = (-1, (), ())

    @property
    def look(self) -> LineLook:
        """Kept until the styles change: a dozen of them for every line painted would be most of a repaint."""
        if self._look is None or self._look.focused != self.has_focus:
            self._look = LineLook.of(self, self.parted)
        return self._look

    def notify_style_update(self) -> None:
        """Another theme has other tones, also where no rule of this widget differs."""
        self._look = None
        super().notify_style_update()
        self.refresh()

    @property
    def filtering(self) -> bool:
        return self.typing or bool(self.view.filter_text)

    @property
    def room(self) -> Size:
        """The cells there are to draw in, without the scrollbar."""
        return self.scrollable_content_region.size

    @property
    def top(self) -> int:
        """Lines above the first row."""
        return 1 if self._has_header else 0

    @property
    def page(self) -> int:
        """Rows in sight."""
        return max(1, self.room.height - self.top - (1 if self.filtering else 0))

    def line_at(self, y: int) -> int | None:
        """The shown row that is drawn at this height, if the cursor can stand on it."""
        line = y - self.top + self.scroll_offset.y
        inside = self.top <= y < self.top + self.page
        return line if inside and self.view.can_stand_on(line) else None

    def cut_words(self, line: int | None = None) -> str:
        """The whole row, else that under the cursor, where something of it is cut in its columns; else nothing."""
        at = self.view.cursor if line is None else line
        if not 0 <= at < len(self.view.shown) or self.view.shown[at].hint is Hint.GROUP:
            return ""
        row = self.view.shown[at]
        texts = [cell.words() for cell in row.cells]
        widths = {spot.index: spot.width for spot in spilling(row, self._laid_out(self.room.width))}
        cut = any(width_in_cells(cell) > widths.get(i, 0) for i, cell in enumerate(row.cells) if texts[i])
        return "  ".join(filter(None, texts)) if cut else ""

    def change(self, work: Callable[[], object]) -> None:
        """Do something to the view that may change which rows are shown, and draw all of it anew."""
        before = self.view.cursor_key
        work()
        self.fit_size()
        self._follow_cursor()
        self._tell(before)

    def move(self, lines: int) -> None:
        before, left = self.view.cursor_key, self.view.cursor
        self.view.move(lines)
        self._follow_cursor()
        self.refresh_row(left)
        self.refresh_row(self.view.cursor)
        self._tell(before)

    def cursor_moved(self, key: str) -> None:
        """Called after the cursor came to another row."""

    def refresh_row(self, line: int) -> None:
        self.refresh_line(line + self.top)

    def fit_size(self) -> None:
        lines = len(self.view.shown) + self.top + (1 if self.filtering else 0)
        self.virtual_size = Size(self.room.width, lines)
        self.refresh()

    def on_mount(self) -> None:
        self.fit_size()

    def on_resize(self) -> None:
        self.fit_size()
        self._follow_cursor()

    def render_line(self, y: int) -> Strip:
        width, look = self.room.width, self.look
        if self._has_header and y == 0:
            return header_line(self._laid_out(width), width, look)
        if self.filtering and y == self.room.height - 1:
            return filter_line(self.view, self.typing, width, look)
        line = y - self.top + self.scroll_offset.y
        if not self.view.shown:
            text = "Nothing holds this text." if self.view.filter_text else self.empty
            return empty_line(with_keys(text, own_keys(self.app)), line, width, look.brush)
        if line >= len(self.view.shown):
            return Strip.blank(width, look.brush.base)
        return row_line(self.view, line, self._laid_out(width), width, look)

    def _laid_out(self, width: int) -> tuple[Placed, ...]:
        """Kept as long as width and rows are the same."""
        rows = self.view.rows
        if self._placed[0] != width or self._placed[1] is not rows:
            columns = [snug(column, i, rows) if column.snug else column for i, column in enumerate(self.columns)]
            self._placed = (width, rows, lay_out(columns, max(0, width - GUTTER)))
        return self._placed[2]

    def _follow_cursor(self) -> None:
        line, first = self.view.cursor, self.scroll_offset.y
        if line < 0 or not self.room.height:
            return
        # the first row brings a heading above it into sight
        aim = 0 if not any(self.view.can_stand_on(i) for i in range(line)) and line < self.page else line
        if aim < first:
            self.scroll_to(y=aim, animate=False, force=True)
        elif line >= first + self.page:
            self.scroll_to(y=line - self.page + 1, animate=False, force=True)

    def _tell(self, before: str | None) -> None:
        key = self.view.cursor_key
        if key is not None and key != before:
            if self.follower is not None:
                self.follower()
            self.cursor_moved(key)
