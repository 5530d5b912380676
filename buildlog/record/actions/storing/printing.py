"""Printers with their first nozzle, and print files with what they lay down."""

import dataclasses
from typing import Any

from buildlog.errors import BadWish
from buildlog.proposals.lines import Line
from buildlog.proposals.recorded_apart import current_revision
from buildlog.record.actions.storing.figures import heads_changed, set_heads
from buildlog.record.actions.storing.rows import WorkRows, live_row
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.tables import Row
from buildlog.record.tables.printing import FileLine, FileTool, SetUp
from buildlog.record.writer import Work
from buildlog.terms import Origin, SetUpKind, Side


class PrinterStoring(Storing):
    NOUN = "printer"

    def added(self, row: Any, form: Any) -> None:
        for head in range(1, form.heads + 1):
            self._nozzle(row, head, form.nozzle)

    def changed(self, row: Any, before: Any, after: Any) -> None:
        """Another nozzle is a new fact of the set-up on every head; a new head gets the same."""
        first = 1 if after.nozzle != before.nozzle else before.heads + 1
        for head in range(first, after.heads + 1):
            self._nozzle(row, head, after.nozzle)

    def _nozzle(self, row: Any, head: int, nozzle_um: int) -> None:
        fact = SetUp(printer_id=row.id, at=self.work.at, kind=SetUpKind.NOZZLE, head=head, nozzle_um=nozzle_um)
        self.work.add(fact)


class PrintFileStoring(Storing):
    NOUN = "print file"

    def complete(self, form: Any) -> Any:
        return dataclasses.replace(form, prepared=form.prepared or self.work.at)

    def check(self, form: Any, _row: Row | None) -> None:
        wrong = [(("lines"), text) for line in form.lines for text in wrong_with(self.work, line)]
        if wrong:
            raise BadWish(tuple(wrong))

    def added(self, row: Any, form: Any) -> None:
        self._lay(row, form)
        set_heads(form, [], FileTool, {"print_file_id": row.id}, self.work)

    def changed(self, row: Any, before: Any, after: Any) -> None:
        """A file prepared anew holds the revisions that are current now."""
        if (after.lines, after.prepared) != (before.lines, before.prepared):
            for line in self.work.all(FileLine, print_file_id=row.id):
                self.work.delete(line)
            self._lay(row, after)
        if heads_changed(before, after):
            tools = self.work.all(FileTool, print_file_id=row.id)
            set_heads(after, tools, FileTool, {"print_file_id": row.id}, self.work)

    def _lay(self, row: Any, form: Any) -> None:
        for line in form.lines:
            part = live_row(self.work, "part", line.code)
            revision = current_revision(WorkRows(self.work), part.id)
            self.work.add(
                FileLine(
                    print_file_id=row.id,
                    part_id=part.id,
                    revision_id=revision.id,
                    side=line.side,
                    quantity=line.quantity,
                )
            )


def wrong_with(work: Work, line: Line) -> list[str]:
    """Why a printer cannot lay down what the line says, in words; empty when it can."""
    part = live_row(work, "part", line.code)
    if part.origin != Origin.PRINTED:
        return [f"{part.code} is {part.origin}: it is not printed"]
    if part.handed and line.side is Side.NONE:
        return [f"{part.code} is handed: write {part.code} L or {part.code} R"]
    if not part.handed and line.side is not Side.NONE:
        return [f"{part.code} is not handed: write it without {line.side}"]
    return []
