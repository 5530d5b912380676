"""The keys that Today and Prints share; both lead to the same actions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from textual import work

from buildlog.screens.base import LiveScreen
from buildlog.terms import Moment

if TYPE_CHECKING:
    from buildlog.ledger import Outcome


class PrintKeys(LiveScreen):
    """What the cursor stands on is meant; where that is no print or printer, it is asked for."""

    @work
    async def action_start_print(self) -> None:
        from buildlog.screens.acts.starting import start_print

        await start_print(self, self.printer_meant, self.file_meant)

    @work
    async def action_finish_print(self) -> None:
        from buildlog.screens.acts.ending import finish_print

        await finish_print(self, self.job_meant)

    @work
    async def action_fail_print(self) -> None:
        from buildlog.screens.acts.ending import fail_print

        await fail_print(self, self.job_meant)

    @work
    async def action_restart_print(self) -> None:
        from buildlog.screens.acts.ending import restart_print

        await restart_print(self, self.job_meant)

    @work
    async def action_load_spool(self) -> None:
        from buildlog.screens.acts.spools import load_spool

        await load_spool(self, self.cursor_id("printer"), self.cursor_id("spool"))

    async def wish(self, wish: Any, at: Moment | None = None) -> Outcome | None:
        """Record it; the printer's line says so at once, until the new Status is there."""
        printer_id = self._printer_of(wish)
        outcome = await super().wish(wish, at)
        if outcome is not None and self.status is not None and printer_id in self.status.snapshot.printer:
            from buildlog.screens.lines import line
            from buildlog.screens.widgets.panes import Panes
            from buildlog.screens.widgets.rows import Cell
            from buildlog.screens.widgets.tones import Tone

            code = self.status.snapshot.printer[printer_id].code
            told = line(f"printer:{printer_id}", code, Cell(" ".join(outcome.sentences), Tone.GOOD))
            self.query_one(Panes).show_row(told)
        return outcome

    def _printer_of(self, wish: Any) -> int | None:
        """The printer that a wish is about: named by it, or that of its print."""
        if self.status is None:
            return None
        code, job_id = getattr(wish, "printer", None), getattr(wish, "job", None)
        if code is not None:
            return next((p.id for p in self.status.snapshot.printers if p.code == code), None)
        return next((job.printer_id for job in self.status.hours.running if job.job_id == job_id), None)

    @property
    def thing_here(self) -> tuple[str, int] | None:
        of_offer = self._offer_parts()
        return ("print file", of_offer[1]) if of_offer else super().thing_here

    @property
    def printer_meant(self) -> int | None:
        """The printer under the cursor, or that of the ready file under it."""
        of_offer = self._offer_parts()
        return of_offer[0] if of_offer else self.cursor_id("printer")

    @property
    def file_meant(self) -> int | None:
        of_offer = self._offer_parts()
        return of_offer[1] if of_offer else self.cursor_id("file")

    @property
    def job_meant(self) -> int | None:
        """What runs on the printer under the cursor, or the print under it."""
        printer_id = self.cursor_id("printer")
        if printer_id is None or self.status is None:
            return self.cursor_id("job")
        running = (m.running for m in self.status.machines.printers if m.printer_id == printer_id)
        return next((job.job_id for job in running if job is not None), None)

    def _offer_parts(self) -> tuple[int, int] | None:
        """Printer and file of a key ``offer:3-7``."""
        kind, _, rest = self.cursor_key.partition(":")
        printer, _, file = rest.partition("-")
        return (int(printer), int(file)) if kind in ("offer", "night") and file.isdecimal() else None
