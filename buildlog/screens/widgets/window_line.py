"""*Leaving at / back at*: two moments typed in words, kept while the app runs.

@on(WindowLine.Changed)             # both texts, whenever one was typed; the screen reads them
"""

from __future__ import annotations

from rich.text import Text
from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.message import Message
from textual.widgets import Input, Static

from buildlog.screens.dialogs.entries import TypedEntry
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.cells import clean


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

    def compose(self) -> ComposeResult:
        yield Static("  leaving ", markup=False, classes="window-label")
        yield TypedEntry("leaving", self._texts[0])
        yield Static("  back ", markup=False, classes="window-label")
        yield TypedEntry("back", self._texts[1])
        yield Static("", markup=False, id="meant")

    def begin(self) -> None:
        self.query(TypedEntry).first().focus()

    def meant(self, text: str, wrong: bool, usual: tuple[str, str]) -> None:
        """Say what was understood, or not; `usual` stands where nothing is typed."""
        for entry, otherwise in zip(self.query(TypedEntry), usual, strict=True):
            entry.placeholder = otherwise
        told = self.query_one("#meant", Static)
        told.set_class(wrong, "wrong")
        told.update(Text(clean(f"{'✗' if wrong else '→'} {text}")))

    @on(Input.Changed)
    def _tell(self, message: Input.Changed) -> None:
        message.stop()
        leaving, back = self.query(TypedEntry)
        self.post_message(self.Changed(leaving.value, back.value))

    @on(Input.Submitted)
    def action_settle(self) -> None:
        """From the first field to the second, from there back to the list."""
        leaving, back = self.query(TypedEntry)
        if leaving.has_focus:
            back.focus()
        else:
            self.post_message(self.Left())

    def action_back_to_list(self) -> None:
        self.post_message(self.Left())
