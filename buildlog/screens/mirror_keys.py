"""The keys of Mirror: each acts on the blocker under the cursor, else on the row of the tree with all beneath it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import work

from buildlog.screens.base import LiveScreen
from buildlog.screens.mirror_side import SidePane
from buildlog.screens.widgets.grid import Grid

if TYPE_CHECKING:
    from buildlog.status.blocker import Blocker
    from buildlog.status.progress import MirrorRow
    from buildlog.status.status import Status


class MirrorKeys(LiveScreen):
    """What the cursor stands on, and what its keys do with it."""

    @property
    def tree_grid(self) -> Grid:
        return self.query_one("#tree", Grid)

    def builds_shown(self, status: Status) -> list[int]:
        """The one build that is shown on every screen, else all in rank order."""
        from buildlog.status.needs_order import builds_in_order

        live = [build.id for build in builds_in_order(status.snapshot)]
        return [build_id for build_id in live if build_id == self.build_id] or live

    def build_shown(self, status: Status) -> int | None:
        """The build of the row under the cursor, else the first of those shown."""
        row, shown = self.row_here(), self.builds_shown(status)
        of_row = None if row is None else status.snapshot.assembly[row.assembly_id].build_id
        return of_row if of_row in shown else next(iter(shown), None)

    def row_here(self) -> MirrorRow | None:
        """The row of the tree under its cursor, wherever the focus is."""
        status = self.status
        if status is None:
            return None
        rows = (row for build_id in self.builds_shown(status) for row in status.progress.mirror(build_id))
        key = self.tree_grid.cursor_key
        return next((row for row in rows if f"assembly:{row.assembly_id}" == key), None)

    def leaf_here(self) -> Blocker | None:
        """The blocker under the cursor of the list that has the focus."""
        pane = next((p for p in self.query(SidePane) if p.grid.has_focus), None)
        return pane.leaf_here if pane is not None else None

    def positions_here(self) -> tuple[int, ...]:
        """The place of the blocker under the cursor, else all positions of the row, both sides, with all beneath."""
        leaf, row = self.leaf_here(), self.row_here()
        if leaf is not None:
            return (leaf.position_id,)
        if row is None or self.status is None:
            return ()
        found = [*row.middle_ids, *row.left_ids, *row.right_ids]
        for position_id in found:
            found += self.status.blockers.children.get(position_id, ())
        return tuple(found)

    @property
    def thing_here(self) -> tuple[str, int] | None:
        """The place of the blocker under the cursor, else the assembly."""
        leaf, row = self.leaf_here(), self.row_here()
        if leaf is not None:
            return "position", leaf.position_id
        return None if row is None else ("assembly", row.assembly_id)

    @work
    async def end_blocker(self) -> None:
        from buildlog.screens.mirror_remedies import remedy

        leaf = self.leaf_here()
        if leaf is not None and self.status is not None:
            await remedy(self.status, leaf).act(self, leaf)

    @work
    async def action_start_print(self) -> None:
        from buildlog.screens.mirror_acts import start_here

        await start_here(self)

    @work
    async def action_tick_step(self) -> None:
        from buildlog.screens.mirror_acts import tick_here

        await tick_here(self)

    @work
    async def action_record_fit(self) -> None:
        from buildlog.screens.mirror_acts import fit_here

        await fit_here(self)

    @work
    async def action_fit_piece(self) -> None:
        from buildlog.screens.acts.slots import fit_piece

        await fit_piece(self, self.positions_here())

    @work
    async def action_take_out(self) -> None:
        from buildlog.screens.acts.slots import take_out

        await take_out(self, self.positions_here())

    @work
    async def action_put_stand_in(self) -> None:
        from buildlog.screens.acts.slots import put_stand_in

        await put_stand_in(self, self.positions_here())

    @work
    async def action_answer_question(self) -> None:
        from buildlog.screens.mirror_acts import answer_here

        await answer_here(self)
