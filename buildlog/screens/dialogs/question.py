"""What all questions share: one panel over the screen, a title, text never read as markup, and esc."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, TypeVar

from rich.text import Text
from textual.app import ComposeResult
from textual.await_complete import AwaitComplete
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Static

from buildlog.screens.keys import Key, Scope, bindings, keys_of
from buildlog.screens.own_keys import as_set, own_keys
from buildlog.screens.widgets.cells import clean
from buildlog.screens.widgets.hint_line import HintLine

T = TypeVar("T")
LINES_BESIDE = 10  # title, hint, their gaps, padding, and the screen above and below


def said(text: str, classes: str = "") -> Static:
    """A paragraph; control characters made harmless, markup left as text."""
    return Static(Text(clean(text)), markup=False, classes=classes)


class Question(ModalScreen[T | None]):
    """Base of the dialogs: answers with a value of T, or None when it is left with esc.

    `ASKS` is whether it waits for an answer, rather than tell something that must be read.
    """

    ASKS: ClassVar[bool] = True
    BINDINGS = bindings(Scope.DIALOG)
    SCOPE: Scope = Scope.DIALOG

    def __init__(self, title: str, caution: str = "") -> None:
        super().__init__()
        self._title, self._caution = title, caution

    def compose(self) -> ComposeResult:
        with Vertical(id="question"):
            yield said(self._title, "question-title")
            if self._caution:
                yield said(f"! {self._caution}", "question-caution")
            yield from self.body()
            yield HintLine(self.hint(), self._keys)

    def body(self) -> Iterable[Widget]:
        """The widgets between title and hint."""
        return ()

    @property
    def room(self) -> int:
        """Lines that a list in the body may take, so that the edge of the screen beneath stays in sight."""
        return max(3, self.app.size.height - LINES_BESIDE)

    def hint(self) -> str:
        """The keys of the dialog, in its last line."""
        return "   ".join(f"{key.face} {key.label}" for key in self._keys)

    @property
    def _keys(self) -> tuple[Key, ...]:
        scopes = dict.fromkeys((self.SCOPE, Scope.DIALOG))
        keys = [key for scope in scopes for key in keys_of(scope) if key.shown]
        return as_set(keys, own_keys(self.app))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool:
        """Keys pressed before the question stands were not meant for it; there is nothing yet to answer from."""
        return self.is_mounted

    def dismiss(self, result: T | None = None) -> AwaitComplete:
        """Answer, once: a key pressed twice before the question is gone must not close what lies beneath it."""
        return super().dismiss(result) if self.is_active else AwaitComplete()

    def action_leave(self) -> None:
        self.dismiss(None)
