"""What can be done now as lines of Today."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from buildlog.facts.naming import position_name
from buildlog.screens.lines import BETWEEN
from buildlog.screens.widgets.rows import Cell, GridRow, LateCell, Spans
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import span

if TYPE_CHECKING:
    from buildlog.status.doable import Doable
    from buildlog.status.status import Status


def work_rows(status: Status) -> list[GridRow]:
    """Key ``doable:INDEX``."""
    return status.kept.ask("rows to do", ("assemblies", "positions"), (status.doable,), lambda: _rows(status))


def _rows(status: Status) -> list[GridRow]:
    """There may be thousands of them: those of one place, and those that take as long, share their cells."""

    @cache
    def place(position_id: int | None) -> Cell:
        return Cell("" if position_id is None else position_name(status.snapshot, position_id))

    @cache
    def takes(minutes: int) -> Cell:
        return Cell(span(minutes) if minutes else "")

    return [
        GridRow(f"doable:{index}", (place(doable.position_id), LateCell(_told, doable), takes(doable.minutes)))
        for index, doable in enumerate(status.doable)
    ]


def _told(doable: Doable) -> Spans:
    """What is to be done, whether for a goal, and who else is needed or can."""
    beside = BETWEEN + "needs two" if doable.needs_two else BETWEEN + "a helper can" if doable.helper_can else ""
    goal = BETWEEN + "goal" if doable.goal else ""
    return ((doable.text, Tone.PLAIN), (goal, Tone.ACCENT), (beside, Tone.FAINT))
