"""What holds one side of an assembly: its figures in a line, and the blockers below with the ways to them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import Vertical

from buildlog.screens.widgets.cells import Align
from buildlog.screens.widgets.facts_line import FactsLine
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Column

if TYPE_CHECKING:
    from buildlog.status.blocker import Blocker
    from buildlog.status.status import Status
    from buildlog.terms import Side

COLUMNS = (
    Column("what", least=28),
    Column("takes", width=8, align=Align.RIGHT, priority=2, snug=True),
    Column("do", width=9, align=Align.RIGHT, snug=True),
)
READY = "Nothing holds it: ready."
NOTHING = "Nothing here."


class SidePane(Vertical):
    """A line of figures and a grid. `leaf_here` is the blocker under the cursor."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(FactsLine(), Grid(COLUMNS, empty=READY), id=id)
        self._leaves: dict[str, Blocker] = {}

    @property
    def grid(self) -> Grid:
        return self.query_one(Grid)

    @property
    def leaf_here(self) -> Blocker | None:
        return self._leaves.get(self.grid.cursor_key or "")

    def show(self, status: Status, position_ids: tuple[int, ...], side: Side) -> None:
        from buildlog.screens.mirror_blockers import blocker_rows, holding, told_of_side

        found = holding(status, position_ids)
        rows, self._leaves = blocker_rows(status, found)
        self.query_one(FactsLine).show(told_of_side(status, position_ids, side, len(found)))
        self.grid.empty = READY if position_ids else NOTHING
        self.grid.set_rows(rows)

    def clear(self) -> None:
        self._leaves = {}
        self.query_one(FactsLine).show(())
        self.grid.empty = NOTHING
        self.grid.set_rows(())
