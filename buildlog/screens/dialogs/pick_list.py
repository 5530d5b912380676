"""The list of a question under the mouse: a click points at a line, another on the same line picks it."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events

from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import GridRow


class PickList(Grid):
    """However late the second click comes; a question is there to be answered, and a screen is not.

    The first one only points, also where the cursor stands already: it does not answer before a line was meant.
    """

    _pointed_at: str | None = None

    def set_rows(self, rows: Sequence[GridRow]) -> None:
        self._pointed_at = None
        super().set_rows(rows)

    def cursor_moved(self, key: str) -> None:
        self._pointed_at = None
        super().cursor_moved(key)

    def pick(self) -> None:
        """What another click does."""
        self.action_choose()

    def on_click(self, event: events.Click) -> None:
        event.prevent_default()  # what lists do elsewhere, which is to choose by a double click
        line = self.line_at(event.y)
        if line is None:
            return
        again = self.view.shown[line].key == self._pointed_at
        self.change(lambda: self.view.put(line))
        self._pointed_at = self.cursor_key
        if again:
            self.pick()
