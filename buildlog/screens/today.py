"""Screen 1: what runs, what to put on now, what to do."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, cast

from textual import work
from textual.events import Resize

from buildlog.screens.base import WIDE_FROM
from buildlog.screens.following import PAINTED_SECONDS
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.live import SeenFirst
from buildlog.screens.print_keys import PrintKeys
from buildlog.terms import Moment

if TYPE_CHECKING:
    from buildlog.screens.widgets.grid import Grid
    from buildlog.screens.widgets.panes import Panes
    from buildlog.screens.widgets.window_line import WindowLine
    from buildlog.status.status import Status


class Today(PrintKeys):
    """Machines first, then what to put on when leaving, then what asks for an answer and what can be done."""

    SCOPE, NAME = Scope.TODAY, "today"
    BINDINGS = bindings(Scope.TODAY)
    QUESTION = "What runs, what do I put on now, and what do I do next?"
    WORDS = (
        ("over since", "The print should be done: take it off, and say with {finish_print} how it came out."),
        ("leaving, back", "What ends in between is offered, longest first, with the spool that is loaded."),
        ("tight", "The spool bears the print, but not the usual margin."),
        ("film first", "A step that cannot be undone waits until its shot is filmed and the footage looked at."),
        ("breaks", "The three targets of the next hard milestone with most print hours beneath them."),
        ("can be done now", "Work for a person with all that it takes on hand: goals first, then what helps most."),
    )

    def __init__(self) -> None:
        super().__init__()
        self._window = ("", "")
        self._all_alerts = False
        self.laid = False
        self._first_key: str | None = None

    async def lay(self) -> None:
        """The lists come with the first data: the first frame stands sooner without them."""
        if self.laid:
            return
        from buildlog.screens.lines import COLUMNS, NARROW
        from buildlog.screens.widgets.panes import Panes
        from buildlog.screens.widgets.window_line import WindowLine

        panes = Panes(COLUMNS, NARROW, empty="", id="panes")
        await self.query_one("#body").mount(WindowLine(*self._window), panes)
        panes.lay(self.size.width >= WIDE_FROM)
        panes.top.focus()
        self.laid = True

    @property
    def panes(self) -> Panes:
        return cast("Panes", self.query_one("#panes"))

    @property
    def window_line(self) -> WindowLine:
        return cast("WindowLine", self.query_one("WindowLine"))

    @property
    def thing_here(self) -> tuple[str, int] | None:
        from buildlog.screens.today_here import thing_behind

        behind = thing_behind(self)
        return super().thing_here if behind is None else (behind.noun, behind.id)

    async def on_seen_first(self, message: SeenFirst) -> None:
        """The machines stand before there is a Status, without what is reckoned of them."""
        await self.lay()
        if self.status is None:
            from buildlog.screens.machine_rows import first_rows

            self.panes.show(first_rows(message.look), (), ())
            self._first_key = self.panes.top.cursor_key

    def show(self, status: Status) -> None:
        from buildlog.screens.beginning import beginning_rows, is_beginning
        from buildlog.screens.today_rows import headline, left_rows, right_rows, top_rows

        self.headline(headline(status, self.build_id))
        if not self.window_line.is_filled:
            self._fill_window_line()
        window = self._read_window(status)
        begin = beginning_rows(status) if is_beginning(status) else []
        untouched = self._first_key is not None and self.panes.top.cursor_key == self._first_key
        if status.machines.printers or status.snapshot.builds:
            top = top_rows(status, window, self._all_alerts)
            rows = (top, left_rows(status, self.build_id), right_rows(status))
            top, left, right = (self.of_build(part) for part in rows)
            self.panes.show([*begin, *top], left, right)
        else:
            self.panes.show(begin, (), ())
        if untouched:  # what waits to be taken off may have come before it
            self.panes.top.action_first_row()
        self._first_key = None

    @work(group="window line")
    async def _fill_window_line(self) -> None:
        """What may be typed into comes once the data is painted."""
        line = self.window_line
        await asyncio.sleep(PAINTED_SECONDS)
        if line.is_attached:  # nobody has left meanwhile
            await line.fill()

    def on_resize(self, event: Resize) -> None:
        if self.laid:
            self.panes.lay(event.size.width >= WIDE_FROM)

    def on_window_line_changed(self, message: WindowLine.Changed) -> None:
        self._window = message.leaving, message.back
        if self.status is not None:
            self.show(self.status)

    def on_window_line_left(self) -> None:
        self.panes.top.focus()

    def on_grid_chosen(self, message: Grid.Chosen) -> None:
        self._act_on(message.key)

    async def action_type_window(self) -> None:
        if self.laid:
            await self.window_line.begin()

    def action_unfold_alerts(self) -> None:
        self._all_alerts = not self._all_alerts
        if self.status is not None and self.laid:
            self.show(self.status)

    @work
    async def action_weigh_spool(self) -> None:
        from buildlog.screens.acts.spools import weigh_spool

        await weigh_spool(self, self.cursor_id("spool"))

    @work
    async def action_receive_order(self) -> None:
        from buildlog.screens.acts.orders import receive_order

        await receive_order(self, self.cursor_id("order"))

    @work
    async def action_tick_step(self) -> None:
        from buildlog.screens.today_acts import tick_here

        await tick_here(self)

    @work
    async def action_record_fit(self) -> None:
        from buildlog.screens.today_acts import fit_here

        await fit_here(self)

    @work
    async def _act_on(self, key: str) -> None:
        """Enter: do what the line is about, or go where that is done."""
        from buildlog.screens.today_acts import act_on
        from buildlog.screens.widgets.alert_list import MORE_KEY

        if key == MORE_KEY:
            self.action_unfold_alerts()
        else:
            await act_on(self, key)

    def _read_window(self, status: Status) -> tuple[Moment, Moment]:
        """The moments that were typed; what is empty or not understood is now, and the start of the next day."""
        from buildlog.screens.today_window import read_window

        read = read_window(status, *self._window)
        self.window_line.meant(read.told, read.wrong, read.usual)
        return read.window
