"""A list beside another one: ← and esc go to the list at its left, → to the one at its right.

yield Horizontal(GridBeside(NOUNS, right="things", id="nouns"), GridBeside(COLUMNS, left="nouns", id="things"))
"""

from __future__ import annotations

from typing import Any

from textual import events

from buildlog.screens.widgets.grid import Grid


class GridBeside(Grid):
    """`left` and `right` are the ids of the lists there; one in which nothing is to be seen is not gone to."""

    def __init__(self, *given: Any, left: str = "", right: str = "", **named: Any) -> None:
        super().__init__(*given, **named)
        self._left, self._right = left, right

    def on_key(self, event: events.Key) -> None:
        if event.key == "escape" and not self.filtering and self._go(self._left):
            event.stop()
            event.prevent_default()

    def action_fold(self) -> None:
        if not self._go(self._left):
            super().action_fold()

    def action_unfold(self) -> None:
        if not self._go(self._right):
            super().action_unfold()

    def _go(self, where: str) -> bool:
        """To the list of that id; False where there is none, or nothing in it."""
        beside = self.screen.query_one(f"#{where}", Grid) if where else None
        if beside is None or not beside.shown_keys:
            return False
        beside.focus()
        return True
