"""Lines to be read through, however many; enter goes on, esc leaves it.

if await self.app.push_screen_wait(ReadThrough("Take these?", lines, "take them")): …
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from textual import on
from textual.widget import Widget

from buildlog.screens.dialogs.question import Question
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Cell, Column, GridRow


class ReadThrough(Question[bool]):
    """Answers True, or None when it is left; `enter` is what enter does."""

    def __init__(self, title: str, lines: Sequence[str], enter: str) -> None:
        super().__init__(title)
        self._lines, self._enter = tuple(lines), enter

    def body(self) -> Iterable[Widget]:
        grid = Grid((Column("line", least=20),), id="lines")
        grid.set_rows([GridRow(str(n), (Cell(line),)) for n, line in enumerate(self._lines)])
        self.as_high_as(grid, max(2, len(self._lines)))
        yield grid

    def hint(self) -> str:
        return f"enter {self._enter}   {super().hint()}"

    @on(Grid.Chosen)
    def _go_on(self, message: Grid.Chosen) -> None:
        message.stop()
        self.dismiss(True)
