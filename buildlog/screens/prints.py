"""Screen 3: what is on each printer, what is ready to run, hours left."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual import on, work
from textual.events import Resize
from textual.widget import Widget

from buildlog.screens.base import WIDE_FROM
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.lines import COLUMNS, NARROW
from buildlog.screens.print_keys import PrintKeys
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.panes import Panes

if TYPE_CHECKING:
    from buildlog.status.status import Status

LEADS_IN = "No printer yet: add one on Things ({go_things}), with {add_thing}."


class Prints(PrintKeys):
    """Printers, queue and hours left; beside them ready files and what ended last."""

    SCOPE, NAME = Scope.PRINTS, "prints"
    BINDINGS = bindings(Scope.PRINTS)
    QUESTION = "What is on each printer, what is ready to run, how many hours are left?"
    WORDS = (
        ("ready file", "A prepared file for a class of printers; it lasts and is run again."),
        ("hours left", "Running, queued and to print, with failures as learned; between so much and so much."),
        ("on top", "What usually comes on top: redesign, replaced parts, spares that nobody planned."),
        ("usual", "Stands in while there are fewer than five facts of your own."),
        ("second", "A piece that came out less than good; used only where that will do."),
        ("salvage", "Print the rest of it and bond it on."),
    )

    def body(self) -> Iterable[Widget]:
        yield Panes(COLUMNS, NARROW, empty=LEADS_IN, id="panes")

    def on_mount(self) -> None:
        self.query_one(Panes).top.focus()

    def show(self, status: Status) -> None:
        from buildlog.screens.prints_rows import headline, left_rows, right_rows, top_rows

        self.headline(headline(status))
        rows = (top_rows(status), left_rows(status), right_rows(status))
        self.query_one(Panes).show(*(self.of_build(part) for part in rows))

    def on_resize(self, event: Resize) -> None:
        self.query_one(Panes).lay(event.size.width >= WIDE_FROM)

    @on(Grid.Chosen)
    def _open(self, message: Grid.Chosen) -> None:
        """Enter: finish what runs, start what could, correct what ended."""
        noun = message.key.partition(":")[0]
        if noun == "offer":
            self.action_start_print()
        elif noun == "printer":
            self._act_on_printer()
        elif noun == "job":
            self._act_on_job()

    def _act_on_printer(self) -> None:
        if self.job_meant is not None:
            self.action_finish_print()
        else:
            self.action_start_print()

    def _act_on_job(self) -> None:
        queued = self.status.hours.queued if self.status is not None else ()
        if any(job.job_id == self.job_meant for job in queued):
            self.action_start_print()
        else:
            self.action_correct_print()

    @work
    async def action_cancel_print(self) -> None:
        from buildlog.screens.acts.ending import cancel_print

        await self.each_marked("job", lambda job_id: cancel_print(self, job_id))

    @work
    async def action_queue_print(self) -> None:
        from buildlog.screens.acts.starting import queue_print

        await queue_print(self, self.file_meant)

    @work
    async def action_correct_print(self) -> None:
        from buildlog.screens.acts.ending import correct_print

        await correct_print(self, self.cursor_id("job"))

    @work
    async def action_swap_spool(self) -> None:
        from buildlog.screens.acts.ending import swap_spool

        await swap_spool(self, self.job_meant)

    @work
    async def action_printer_down(self) -> None:
        from buildlog.screens.acts.printers import down_or_up

        await down_or_up(self, self.cursor_id("printer"))

    @work
    async def action_set_nozzle(self) -> None:
        from buildlog.screens.acts.printers import set_nozzle

        await set_nozzle(self, self.cursor_id("printer"))
