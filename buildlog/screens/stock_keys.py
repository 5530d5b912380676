"""The keys of Stock: each acts on the line under the cursor, or asks which."""

from __future__ import annotations

from textual import work

from buildlog.screens.base import LiveScreen
from buildlog.screens.widgets.grid import Grid


class StockKeys(LiveScreen):
    """What the cursor stands on, and what the keys do with it."""

    @property
    def material_here(self) -> int | None:
        """The material under the cursor of the upper list; None on the line of print hours."""
        of, _, row_id = (self.query_one("#materials", Grid).cursor_key or "").partition(":")
        return int(row_id) if of == "material" else None

    @work
    async def act_here(self) -> None:
        """Enter: what is most often done with such a thing."""
        from buildlog.screens.stock_acts import act_on

        await act_on(self, self.cursor_key)

    @work
    async def action_load_spool(self) -> None:
        from buildlog.screens.acts.spools import load_spool

        await load_spool(self, None, self.cursor_id("spool"))

    @work
    async def action_weigh_spool(self) -> None:
        from buildlog.screens.acts.spools import weigh_spool

        await self.each_marked("spool", lambda spool_id: weigh_spool(self, spool_id))

    @work
    async def action_receive_order(self) -> None:
        from buildlog.screens.stock_acts import receive_here

        await receive_here(self)

    @work
    async def action_place_order(self) -> None:
        from buildlog.screens.stock_acts import order_here

        await order_here(self)

    @work
    async def action_dry_spool(self) -> None:
        from buildlog.screens.acts.spool_state import dry_spool

        await self.each_marked("spool", lambda spool_id: dry_spool(self, spool_id))

    @work
    async def action_open_or_seal(self) -> None:
        from buildlog.screens.acts.spool_state import open_or_seal

        await self.each_marked("spool", lambda spool_id: open_or_seal(self, spool_id))

    @work
    async def action_empty_spool(self) -> None:
        from buildlog.screens.acts.spool_state import empty_spool

        await self.each_marked("spool", lambda spool_id: empty_spool(self, spool_id))

    @work
    async def action_count_item(self) -> None:
        from buildlog.screens.acts.bought import count_item

        await self.each_marked("bought item", lambda item_id: count_item(self, item_id))
