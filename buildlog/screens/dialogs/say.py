"""Say something that must be read: a caution, or why something was refused and what to do instead.

self.app.push_screen(Say("Not started", [str(error)], instead="Load another spool with l."))
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import ClassVar

from textual import on
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Button

from buildlog.screens.dialogs.question import Question, said


class Say(Question[None]):
    """Answers nothing. `source` is where a caution comes from."""

    ASKS: ClassVar[bool] = False

    def __init__(
        self, title: str, lines: Sequence[str], *, instead: str = "", source: str = "", caution: str = ""
    ) -> None:
        super().__init__(title, caution)
        self._lines, self._instead, self._source = tuple(lines), instead, source

    def body(self) -> Iterable[Widget]:
        yield from (said(line, "question-line") for line in self._lines)
        if self._instead:
            yield said(f"→ {self._instead}", "question-instead")
        if self._source:
            yield said(self._source, "question-source")
        yield Button(Content("I have read it"), id="read", compact=True)

    def hint(self) -> str:
        return "enter or esc closes"

    @on(Button.Pressed)
    def _close(self) -> None:
        self.dismiss(None)
