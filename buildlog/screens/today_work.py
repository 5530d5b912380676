"""What can be done now as lines of Today.

There may be thousands of them: what one says is made where it is drawn, and where a filter looks for it.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import TYPE_CHECKING

from buildlog.facts.naming import position_name
from buildlog.screens.lines import BETWEEN
from buildlog.screens.widgets.rows import Cell, GridRow
from buildlog.screens.widgets.spread import spread
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import span

if TYPE_CHECKING:
    from rich.segment import Segment

    from buildlog.screens.widgets.cells import Align
    from buildlog.screens.widgets.tones import Brush
    from buildlog.status.doable import Doable
    from buildlog.status.status import Status


def work_rows(status: Status) -> list[GridRow]:
    """Key ``doable:INDEX``."""
    return status.kept.ask("rows to do", ("assemblies", "positions"), (status.doable,), lambda: _rows(status))


def _rows(status: Status) -> list[GridRow]:
    """Lines of one place, and of as much time, share their cells."""

    @cache
    def place(position_id: int | None) -> Cell:
        return Cell("" if position_id is None else position_name(status.snapshot, position_id))

    @cache
    def takes(minutes: int) -> Cell:
        return Cell(span(minutes) if minutes else "")

    return [
        GridRow(f"doable:{index}", (place(doable.position_id), WorkCell(doable), takes(doable.minutes)))
        for index, doable in enumerate(status.doable)
    ]


class WorkCell:
    """What is to be done, whether for a goal, and who else is needed or can. Equal only to itself, so that two long
    lists are not compared line by line.
    """

    __slots__ = ("_doable",)

    def __init__(self, doable: Doable) -> None:
        self._doable = doable

    def words(self) -> str:
        return "".join(text for text, _ in self._spans())

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        return spread(self._spans(), width, align, brush)

    def _spans(self) -> tuple[tuple[str, Tone], ...]:
        found = self._doable
        beside = BETWEEN + "needs two" if found.needs_two else BETWEEN + "a helper can" if found.helper_can else ""
        goal = BETWEEN + "goal" if found.goal else ""
        return ((found.text, Tone.PLAIN), (goal, Tone.ACCENT), (beside, Tone.FAINT))
