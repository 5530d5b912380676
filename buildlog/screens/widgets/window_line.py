"""*Leaving at / back at*: two moments typed in words, kept while the app runs.

def on_window_line_changed(self, message: WindowLine.Changed): ...    # both texts, whenever one was typed
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text
from textual.containers import Horizontal
from textual.message import Message
from textual.widgets import Static

from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.cells import clean

if TYPE_CHECKING:
    from textual.css.query import DOMQuery

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
        self._filled = False
        self._meant = "", False, ("", "")

    async def fill(self) -> None:
        """Mount the entries; the line stands empty before, so that lists do not wait for them."""
        from buildlog.screens.dialogs.entries import TypedEntry

        if self._filled:
            return
        await self.mount(
            Static("  leaving ", markup=False, classes="window-label"),
            TypedEntry("leaving", self._texts[0]),
            Static("  back ", markup=False, classes="window-label"),
            TypedEntry("back", self._texts[1]),
            Static("", markup=False, id="meant"),
        )
        self._filled = True
        self._tell_meant()

    def begin(self) -> None:
        if self._filled:
            self._entries.first().focus()

    def meant(self, text: str, wrong: bool, usual: tuple[str, str]) -> None:
        """Say what was understood, or not; `usual` stands where nothing is typed."""
        self._meant = text, wrong, usual
        if self._filled:
            self._tell_meant()

    def _tell_meant(self) -> None:
        text, wrong, usual = self._meant
        for entry, otherwise in zip(self._entries, usual, strict=True):
            entry.placeholder = otherwise
        told = self.query_one("#meant", Static)
        told.set_class(wrong, "wrong")
        told.update(Text(clean(f"{'✗' if wrong else '→'} {text}")))

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

    @property
    def _entries(self) -> DOMQuery[TypedEntry]:
        from buildlog.screens.dialogs.entries import TypedEntry

        return self.query(TypedEntry)
