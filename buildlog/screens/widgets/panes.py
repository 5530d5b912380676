"""Three lists where there is room: one over the whole width, two side by side below; else all in one.

    panes.show(top_rows, left_rows, right_rows)

`narrow` are the columns of the lower two. Every row's key is in one list at a time; the cursor stays on its row
when the lists are laid anew.
"""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical

from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Column, GridRow

TOP_SHARE = 0.6
"""Of the height that the list on top may take at most."""


class PaneGrid(Grid):
    """Its headings part the screen."""

    parted = True


class Panes(Vertical):
    """The grids `#top`, `#left` and `#right`; the lower two are seen only while `wide`."""

    def __init__(
        self, columns: Sequence[Column], narrow: Sequence[Column], *, empty: str, id: str | None = None
    ) -> None:
        super().__init__(id=id)
        self._columns, self._narrow, self._empty = tuple(columns), tuple(narrow), empty
        self._rows: tuple[tuple[GridRow, ...], ...] = ((), (), ())
        self._wide = False

    def compose(self) -> ComposeResult:
        yield PaneGrid(self._columns, empty="", id="top")  # leads in when it is known that there is nothing
        with Horizontal(id="below"):
            yield PaneGrid(self._narrow, empty="", id="left")
            yield PaneGrid(self._narrow, empty="", id="right")

    @property
    def top(self) -> Grid:
        return self.query_one("#top", Grid)

    def on_mount(self) -> None:
        self._lay()

    def on_resize(self) -> None:
        self._fit()

    def show(self, top: Sequence[GridRow], left: Sequence[GridRow], right: Sequence[GridRow]) -> None:
        self._rows = tuple(top), tuple(left), tuple(right)
        self.top.empty = self._empty
        self._lay()

    def lay(self, wide: bool) -> None:
        """In one list or in three."""
        if wide != self._wide:
            self._wide = wide
            self._lay()

    def show_row(self, row: GridRow) -> None:
        """Replace one row, wherever it is; nothing where it is in no list."""
        for grid in self.query(Grid):
            if row.key in grid.shown_keys:
                grid.set_row(row)

    def _lay(self) -> None:
        top, left, right = self._rows
        if self._wide:
            shown: tuple[Sequence[GridRow], ...] = self._rows
        else:
            shown = ((*top, *left, *right), (), ())
        by_id = dict(zip(("top", "left", "right"), shown, strict=True))
        grids = list(self.query(PaneGrid))
        if len(grids) < len(by_id):  # the lower two are mounted a moment after the first
            self.call_after_refresh(self._lay)
            return
        for grid, rows in ((grid, by_id[grid.id or ""]) for grid in grids):
            if grid.has_focus and not rows:
                self.top.focus()
            grid.set_rows(rows)
        self.query_one("#below").display = self._wide
        self._fit()

    def _fit(self) -> None:
        """The list on top is as high as it is long, as far as that leaves room; before it is laid out for the first
        time, it takes the room of the window.
        """
        most = max(3, int((self.size.height or self.app.size.height) * TOP_SHARE))
        self.top.styles.height = min(most, len(self.top.shown_keys)) if self._wide else "1fr"
