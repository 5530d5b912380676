"""Tick any of several things.

    ticked = await self.app.push_screen_wait(TickOff("What changes with it?", choices))

Space ticks the line under the cursor, as another click on it does, and enter is done; answers the values ticked, an
empty tuple for none of them, None when left by esc.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Generic, TypeVar

from textual import on
from textual.widget import Widget

from buildlog.screens.dialogs.choose import LABEL_AT_MOST, Choice
from buildlog.screens.dialogs.pick_list import PickList
from buildlog.screens.dialogs.question import Question
from buildlog.screens.keys import Scope, keys_of
from buildlog.screens.own_keys import as_set, own_keys
from buildlog.screens.widgets.cells import width_of
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Cell, Column, GridRow
from buildlog.screens.widgets.tones import Tone

T = TypeVar("T")
TICKED, OPEN = "[x]", "[ ]"


class TickList(PickList):
    """Another click on a line ticks it, or takes the tick away."""

    def pick(self) -> None:
        self.view.toggle_mark()
        self.post_message(self.Marked(self, self.marked))


class TickOff(Question[tuple[T, ...]], Generic[T]):
    """The marks of the list are the ticks."""

    def __init__(self, title: str, choices: Sequence[Choice[T]], caution: str = "") -> None:
        super().__init__(title, caution)
        self._choices = tuple(choices)

    def body(self) -> Iterable[Widget]:
        widest = max((width_of(choice.label) for choice in self._choices), default=0)
        columns = (
            Column("ticked", width=len(TICKED)),
            Column("label", width=min(widest, LABEL_AT_MOST)),
            Column("detail", least=12, priority=1),
        )
        grid = TickList(columns, id="choices")
        grid.set_rows([_row(i, choice, False) for i, choice in enumerate(self._choices)])
        self.as_high_as(grid, max(2, len(self._choices)) + 1)
        yield grid

    def hint(self) -> str:
        faces = {key.id: key.face for key in as_set(keys_of(Scope.LIST), own_keys(self.app))}
        return f"{faces['mark']} tick   {faces['choose']} done   {super().hint()}"

    @on(Grid.Marked)
    def _draw_ticks(self, message: Grid.Marked) -> None:
        message.stop()
        for i, choice in enumerate(self._choices):
            message.grid.set_row(_row(i, choice, str(i) in message.keys))

    @on(Grid.Chosen)
    def _done(self, message: Grid.Chosen) -> None:
        message.stop()
        self.dismiss(tuple(self._choices[int(key)].value for key in message.grid.marked))


def _row(i: int, choice: Choice[T], ticked: bool) -> GridRow:
    tick = Cell(TICKED, Tone.ACCENT) if ticked else Cell(OPEN, Tone.FAINT)
    return GridRow(str(i), (tick, Cell(choice.label), Cell(choice.detail, choice.tone)))
