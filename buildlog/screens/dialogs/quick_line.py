"""One line in plain words: what fits next is offered below it, and what will be written is said before enter.

    typed = await self.app.push_screen_wait(QuickLine("weighed ", read, offer, try_out))

`read` understands a line, `offer` tells what may follow it; both are asked after every key, so they must be quick.
`try_out` is awaited when the line rests for a moment, and says what recording it would say. `to_note` is told with
what keeps a line from being recorded. What stands in the line at first is `typed_over`, or gone on with.
Answers what was typed: with its wish where enter recorded it, without where it was left by esc.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.text import Text
from textual import on, work
from textual.widget import Widget
from textual.widgets import Input, Static

from buildlog.screens.dialogs.entries import TypedEntry
from buildlog.screens.dialogs.pick_list import PickList
from buildlog.screens.dialogs.question import Question
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.cells import clean
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Cell, Column, GridRow
from buildlog.screens.widgets.tones import SIGNS, Tone

if TYPE_CHECKING:
    from buildlog.intake.quick.completing import Completion
    from buildlog.intake.quick.reading import Read

RESTS_FOR_SECONDS = 0.25
BELOW_THE_LIST = 4
"""Lines for what will be written."""
HOW = "Type a fact in plain words; other words become a note. tab takes the line that is lit."


@dataclass(frozen=True, slots=True)
class Tried:
    """What recording would say, or why it would be refused; with the cautions that belong to it."""

    said: str
    refused: bool = False
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Typed:
    """What stood in the line; `read` is None where it was left."""

    text: str
    read: Read | None


class LineEntry(TypedEntry):
    """The line itself: what was refused is gone on with; what was left is typed over, unless a key goes into it."""

    def __init__(self, text: str, typed_over: bool) -> None:
        super().__init__("line", text)
        self.select_on_focus = typed_over

    def on_mount(self) -> None:
        if not self.select_on_focus:
            self.cursor_position = len(self.value)


class QuickLine(Question[Typed]):
    """The line, what fits next, what will be written."""

    BINDINGS = bindings(Scope.QUICK)
    SCOPE = Scope.QUICK
    AUTO_FOCUS = "LineEntry"

    def __init__(
        self,
        text: str,
        read: Callable[[str], Read],
        offer: Callable[[str], Sequence[Completion]],
        try_out: Callable[[Read], Awaitable[Tried]],
        to_note: str = "",
        typed_over: bool = False,
    ) -> None:
        super().__init__("What happened?")
        self._typed_over = typed_over
        self._to_note = to_note
        self._text, self._read, self._offer, self._try_out = text, read, offer, try_out
        self._offers: dict[str, Completion] = {}

    def body(self) -> Iterable[Widget]:
        yield LineEntry(self._text, self._typed_over)
        columns = (Column("adds", width=20), Column("what", least=20))
        offers = PickList(columns, empty="", id="offers")
        offers.can_focus = False
        offers.styles.height = max(3, min(8, self.room - BELOW_THE_LIST))
        yield offers
        yield Static("", markup=False, id="will-write")
        yield Static("", markup=False, id="heeded")

    @property
    def entry(self) -> LineEntry:
        return self.query_one(LineEntry)

    @property
    def offers(self) -> Grid:
        return self.query_one("#offers", Grid)

    def on_mount(self) -> None:
        self._show()

    @on(Input.Changed)
    def _show(self) -> None:
        text = self.entry.value
        offered = self._offer(text)
        self._offers = {str(number): one for number, one in enumerate(offered)}
        self.offers.set_rows([_row(key, one) for key, one in self._offers.items()])
        self.offers.action_first_row()
        read = self._read(text)
        self._say("heeded", "")
        if not text.strip():
            self._say("will-write", HOW)
        elif read.wish is None:
            self._say("will-write", f"… {read.plainly}")
        else:
            self._say("will-write", f"→ {read.plainly}", "whole")
        self._try(read)

    @work(exclusive=True, group="trying", exit_on_error=False)
    async def _try(self, read: Read) -> None:
        """What would be written, once the typing rests."""
        if read.wish is None:
            return
        await asyncio.sleep(RESTS_FOR_SECONDS)
        tried = await self._try_out(read)
        sign = SIGNS[Tone.BAD if tried.refused else Tone.GOOD]
        self._say("will-write", f"{sign} {tried.said}", "wrong" if tried.refused else "tried")
        self._say("heeded", f"! {tried.caution}" if tried.caution else "")

    @on(Input.Submitted)
    def action_record(self) -> None:
        """Answer with the line, or say what it lacks."""
        read = self._read(self.entry.value)
        if read.wish is not None:
            self.dismiss(Typed(self.entry.value, read))
        elif self.entry.value.strip():
            self._say("will-write", f"{SIGNS[Tone.BAD]} {read.plainly}. {self._to_note}", "wrong")

    @on(Grid.Chosen, "#offers")
    def action_take_offer(self) -> None:
        """Put the offer that is lit into the line."""
        taken = self._offers.get(self.offers.cursor_key or "")
        if taken is not None and taken.adds:
            self.entry.value = taken.line
            self.entry.cursor_position = len(taken.line)

    def action_light(self, by: int) -> None:
        self.offers.move(by)

    def action_leave(self) -> None:
        self.dismiss(Typed(self.entry.value, None))

    def _say(self, where: str, text: str, tone: str = "") -> None:
        said = self.query_one(f"#{where}", Static)
        said.set_classes(tone)
        said.update(Text(clean(text)))


def _row(key: str, offered: Completion) -> GridRow:
    return GridRow(key, (Cell(offered.adds or "…"), Cell(offered.what, Tone.FAINT)))
