"""Two lists side by side where there is room, one beneath the other in one list where there is not.

panes.show(left_rows, right_rows)
panes.cursor_key                    # of the list that has the focus
"""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Horizontal

from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Column, GridRow


class Panes(Horizontal):
    """The grids `#left` and `#right`; the second is seen only while `wide` is set."""

    def __init__(self, columns: Sequence[Column], *, empty: str, id: str | None = None) -> None:
        super().__init__(id=id)
        self._columns, self._empty = tuple(columns), empty
        self._left: tuple[GridRow, ...] = ()
        self._right: tuple[GridRow, ...] = ()
        self._wide = False

    def compose(self) -> ComposeResult:
        yield Grid(self._columns, empty=self._empty, id="left")
        yield Grid(self._columns, empty="", id="right")

    @property
    def grids(self) -> tuple[Grid, Grid]:
        return self.query_one("#left", Grid), self.query_one("#right", Grid)

    @property
    def cursor_key(self) -> str | None:
        left, right = self.grids
        return (right if right.has_focus and self._wide else left).cursor_key

    def on_mount(self) -> None:
        self.lay(self._wide)

    def show(self, left: Sequence[GridRow], right: Sequence[GridRow]) -> None:
        self._left, self._right = tuple(left), tuple(right)
        self.lay(self._wide)

    def lay(self, wide: bool) -> None:
        """One list or two; the cursor stays where it is."""
        self._wide = wide
        left, right = self.grids
        if not wide and right.has_focus:
            left.focus()
        right.display = wide
        left.set_rows(self._left if wide else (*self._left, *self._right))
        right.set_rows(self._right if wide else ())

    def show_row(self, row: GridRow) -> None:
        """Replace one row, wherever it is; nothing where it is in no list."""
        for grid in self.grids:
            if row.key in grid.shown_keys:
                grid.set_row(row)
