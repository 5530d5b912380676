"""Choose one of several things.

    choices = [Choice(spool, "SP-04", "412 g, dry"), …]
    spool = await self.app.push_screen_wait(Choose("Which spool?", choices))

Enter takes the line under the cursor, as another click on it does; 1 to 9 take one of the first nine at once, `/`
filters, esc answers None.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar, Generic, TypeVar

from textual import on
from textual.widget import Widget

from buildlog.screens.dialogs.pick_list import PickList
from buildlog.screens.dialogs.question import Question
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.cells import Align, width_of
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Cell, Column, GridRow
from buildlog.screens.widgets.tones import Tone

T = TypeVar("T")
NUMBERED = 9
LABEL_AT_MOST = 40


@dataclass(frozen=True, slots=True)
class Choice(Generic[T]):
    """A value with what it is called and what speaks for or against it."""

    value: T
    label: str
    detail: str = ""
    tone: Tone = Tone.FAINT


class Choose(Question[T]):
    """The likeliest choice first; its line is under the cursor."""

    BINDINGS = bindings(Scope.CHOICE)
    SCOPE = Scope.CHOICE
    LIST: ClassVar[type[PickList]] = PickList

    def __init__(
        self,
        title: str,
        choices: Sequence[Choice[T]],
        *,
        caution: str = "",
        empty: str = "There is nothing to choose from.",
    ) -> None:
        super().__init__(title, caution)
        self._choices = tuple(choices)
        self._empty = empty

    def body(self) -> Iterable[Widget]:
        widest = max((width_of(choice.label) for choice in self._choices), default=0)
        columns = (
            Column("number", width=1, align=Align.RIGHT),
            Column("label", width=min(widest, LABEL_AT_MOST)),
            Column("detail", least=12, priority=1),
        )
        grid = self.LIST(columns, empty=self._empty, id="choices")
        grid.set_rows([_row(i, choice) for i, choice in enumerate(self._choices)])
        self.as_high_as(grid, max(2, len(self._choices)) + 1)  # one more than there are choices, for the filter
        yield grid

    @on(Grid.Chosen)
    def _take(self, message: Grid.Chosen) -> None:
        message.stop()
        self.dismiss(self._choices[int(message.key)].value)

    def action_pick(self, number: str) -> None:
        """Take the line that bears this number, if the filter leaves it in sight."""
        key = str(int(number) - 1)
        if key in self.query_one(Grid).shown_keys:
            self.dismiss(self._choices[int(key)].value)


def _row(i: int, choice: Choice[T]) -> GridRow:
    number = str(i + 1) if i < NUMBERED else ""
    cells = (Cell(number, Tone.ACCENT), Cell(choice.label), Cell(choice.detail, choice.tone))
    return GridRow(str(i), cells)
