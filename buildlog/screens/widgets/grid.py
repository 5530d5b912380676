"""One line-drawn list for every screen, the Mirror tree too.

    grid = Grid(COLUMNS, empty="Nothing printed yet. Press s to start a print.", id="jobs")
    grid.set_rows(rows)             # again and again: cursor, marks, folds and filter stay with their keys
    grid.set_row(row)               # one row changed: one line is drawn anew

    @on(Grid.Chosen, "#jobs")       # enter, or a second click
    def open_job(self, message: Grid.Chosen) -> None: ... message.key

Attributes down: rows and columns. Messages up: Highlighted (for the first row too), Chosen, Marked, with keys.
Rows may be set before the grid is mounted.
"""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.message import Message

from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.filtered_list import FilteredList
from buildlog.screens.widgets.rows import Column, GridRow


class Grid(FilteredList):
    """A list with a cursor, marks, folds and a filter."""

    BINDINGS = bindings(Scope.LIST)

    class Keyed(Message):
        """Base of the messages about one row."""

        def __init__(self, grid: Grid, key: str) -> None:
            super().__init__()
            self.grid, self.key = grid, key

        @property
        def control(self) -> Grid:
            return self.grid

    class Highlighted(Keyed):
        """The cursor came to this row."""

    class Chosen(Keyed):
        """Enter, or a second click on this row."""

    class Marked(Message):
        """The set of marked rows changed; `keys` in row order."""

        def __init__(self, grid: Grid, keys: tuple[str, ...]) -> None:
            super().__init__()
            self.grid, self.keys = grid, keys

        @property
        def control(self) -> Grid:
            return self.grid

    def __init__(
        self,
        columns: Sequence[Column],
        *,
        empty: str = "Nothing here.",
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        super().__init__(columns, empty, id, classes)

    @property
    def cursor_key(self) -> str | None:
        return self.view.cursor_key

    @property
    def marked(self) -> tuple[str, ...]:
        return self.view.marked_in_order()

    @property
    def shown_keys(self) -> tuple[str, ...]:
        """Keys of the rows that filter and folds leave, headings too."""
        return tuple(row.key for row in self.view.shown)

    def set_rows(self, rows: Sequence[GridRow]) -> None:
        """Show these rows instead. Two rows of one key are refused by a ValueError naming it."""
        self.change(lambda: self.view.set_rows(rows))

    def set_row(self, row: GridRow) -> None:
        """Replace the row of the same key; KeyError where there is none."""
        shown = len(self.view.shown)
        line = self.view.replace(row)
        if len(self.view.shown) != shown:
            self.fit_size()
        elif line is not None:
            self.refresh_row(line)

    def move_to(self, key: str) -> bool:
        """Put the cursor on this row, unfolding and unfiltering as needed; False where it does not exist."""
        line = self.view.reveal(key)
        if line is None:
            return False
        self.change(lambda: self.view.put(line))
        return True

    def unmark(self) -> None:
        """Take all marks away: what they were for is done."""
        if self.marked:
            self.change(self.view.unmark)
            self.post_message(self.Marked(self, ()))

    def cursor_moved(self, key: str) -> None:
        self.post_message(self.Highlighted(self, key))

    def action_cursor_up(self) -> None:
        self.move(-1)

    def action_cursor_down(self) -> None:
        self.move(1)

    def action_page_up(self) -> None:
        self.move(-self.page)

    def action_page_down(self) -> None:
        self.move(self.page)

    def action_first_row(self) -> None:
        self.move(-len(self.view.shown))

    def action_last_row(self) -> None:
        self.move(len(self.view.shown))

    def action_fold(self) -> None:
        self.change(self.view.fold)

    def action_unfold(self) -> None:
        self.change(self.view.unfold)

    def action_choose(self) -> None:
        if (key := self.cursor_key) is not None:
            self.post_message(self.Chosen(self, key))

    def action_mark(self) -> None:
        """Mark or unmark the row and go on to the next."""
        if self.view.toggle_mark():
            self.post_message(self.Marked(self, self.marked))
            self.refresh_row(self.view.cursor)
            self.move(1)

    def on_click(self, event: events.Click) -> None:
        line = self.line_at(event.y)
        if line is None:
            return
        again = line == self.view.cursor and event.chain >= 2
        self.change(lambda: self.view.put(line))
        if again:
            self.action_choose()
