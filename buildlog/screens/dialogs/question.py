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
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.hint_line import HintLine
from buildlog.screens.window_size import NewestSize

T = TypeVar("T")
LINES_BESIDE = 10
"""Title, hint, their gaps and padding, and the screen above and below: what is beside a list until it is measured."""
EDGES = 4
"""Padding of the panel, and the screen above and below."""


def said(text: str, classes: str = "") -> Static:
    """A paragraph; control characters made harmless, markup left as text."""
    return Static(Text(clean(text)), markup=False, classes=classes)


class Question(NewestSize, ModalScreen[T | None]):
    """Base of the dialogs: answers with a value of T, or None when it is left with esc.

    `ASKS` is whether it waits for an answer, rather than tell something that must be read.
    """

    ASKS: ClassVar[bool] = True
    BINDINGS = bindings(Scope.DIALOG)
    SCOPE: Scope = Scope.DIALOG

    def __init__(self, title: str, caution: str = "") -> None:
        super().__init__()
        self._title, self._caution = title, caution
        self._list: tuple[Grid, int] | None = None

    def compose(self) -> ComposeResult:
        with Vertical(id="question"):
            yield said(self._title, "question-title")
            if self._caution:
                yield said(f"! {self._caution}", "question-caution")
            yield from self.body()
            yield Static("", markup=False, id="whole")
            yield HintLine(self.hint(), self._keys)

    def body(self) -> Iterable[Widget]:
        """The widgets between title and hint."""
        return ()

    @property
    def room(self) -> int:
        """Lines that a list in the body may take, so that the edge of the screen beneath stays in sight."""
        return max(3, self.app.size.height - LINES_BESIDE)

    def as_high_as(self, grid: Grid, lines: int) -> None:
        """So high is the list of the body, as far as there is room for it, also when the window changes."""
        self._list = grid, lines
        if not grid.is_mounted:
            grid.styles.height = min(lines, self.room)
            return
        if self._is_gone:
            return
        self.query_one("#whole").display = any(map(grid.cut_words, range(len(grid.view.shown))))
        self._tell_whole()
        self.call_after_refresh(self._fit)

    def on_resize(self) -> None:
        if self._list is not None:
            self.call_after_refresh(self.as_high_as, *self._list)  # when the texts are wrapped anew

    @property
    def _is_gone(self) -> bool:
        """What was to be done after a refresh may come when it is answered already."""
        return not self.query("#whole")

    def _fit(self) -> None:
        if self._list is not None and not self._is_gone:
            grid, lines = self._list
            grid.styles.height = min(lines, self._room_beside(grid))

    def on_grid_highlighted(self) -> None:
        self._tell_whole()

    def _tell_whole(self) -> None:
        """The row under the cursor below the list, where the list cuts it."""
        if self._list is not None and not self._is_gone:
            self.query_one("#whole", Static).update(Text(clean(self._list[0].cut_words())))

    def _room_beside(self, grid: Grid) -> int:
        """Lines that all else in the panel leaves to a list."""
        others = [part for part in self.query_one("#question").children if part is not grid and part.display]
        beside = EDGES + sum(part.outer_size.height + part.styles.margin.height for part in others)
        return max(3, self.app.size.height - beside)

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
