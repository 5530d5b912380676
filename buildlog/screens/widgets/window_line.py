"""*Leaving at / back at*: two moments typed in words, kept while the app runs.

def on_window_line_changed(self, message: WindowLine.Changed): ...    # both texts, whenever one was typed
"""

from __future__ import annotations

from asyncio import Lock
from typing import TYPE_CHECKING

from rich.text import Text
from textual.containers import Horizontal
from textual.message import Message
from textual.widgets import Static

from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.cells import clean

if TYPE_CHECKING:
    from buildlog.screens.dialogs.entries import TypedEntry


class WindowLine(Horizontal):
    """One line; `meant` says what was understood, or what was not."""

    BINDINGS = bindings(Scope.WINDOW)

    class Changed(Message):
        def __init__(self, leaving: str, back: str) -> None:
            super().__init__()
            self.leaving, self.back = leaving, back

    class Left(Message):
        """Done typing: back to the list."""

    def __init__(self, leaving: str, back: str) -> None:
        super().__init__()
        self._texts = leaving, back
        self._entries: tuple[TypedEntry, ...] = ()
        self._usual = "", ""
        self._told = Static("", markup=False, id="meant")
        self._one_at_a_time = Lock()

    @property
    def is_filled(self) -> bool:
        return bool(self._entries)

    async def fill(self) -> None:
        """Mount the entries; the line stands empty before, so that lists do not wait for them."""
        from buildlog.screens.dialogs.entries import TypedEntry

        async with self._one_at_a_time:
            if self.is_filled:
                return
            leaving, back = self._entries = TypedEntry("leaving", self._texts[0]), TypedEntry("back", self._texts[1])
            self._tell_usual()
            await self.mount(_label("leaving"), leaving, _label("back"), back, self._told)

    async def begin(self) -> None:
        await self.fill()
        self._entries[0].focus()

    def meant(self, text: str, wrong: bool, usual: tuple[str, str]) -> None:
        """Say what was understood, or not; `usual` stands where nothing is typed."""
        self._usual = usual
        self._told.set_class(wrong, "wrong")
        self._told.update(Text(clean(f"{'✗' if wrong else '→'} {text}")))
        self._tell_usual()

    def _tell_usual(self) -> None:
        for entry, otherwise in zip(self._entries, self._usual, strict=False):  # none before it is filled
            entry.placeholder = otherwise

    def on_input_changed(self, message: Message) -> None:
        message.stop()
        leaving, back = self._entries
        self.post_message(self.Changed(leaving.value, back.value))

    def on_input_submitted(self) -> None:
        self.action_settle()

    def action_settle(self) -> None:
        """From the first field to the second, from there back to the list."""
        leaving, back = self._entries
        if leaving.has_focus:
            back.focus()
        else:
            self.post_message(self.Left())

    def action_back_to_list(self) -> None:
        self.post_message(self.Left())


def _label(word: str) -> Static:
    return Static(f"  {word} ", markup=False, classes="window-label")
