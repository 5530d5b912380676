"""Say what will happen, and ask whether it should.

question = Confirm("Take back?", ["«Finish print J-212» of 14:03"], yes="take it back")
if await self.app.push_screen_wait(question): …
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from textual import on
from textual.containers import Horizontal
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Button

from buildlog.screens.dialogs.question import Question, said
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.own_keys import own_keys, with_keys


class Confirm(Question[bool]):
    """Answers True or False; esc answers None, which is as false. `careful` puts enter on no."""

    BINDINGS = bindings(Scope.YES_NO)
    SCOPE = Scope.YES_NO

    def __init__(
        self,
        title: str,
        will: Sequence[str],
        *,
        yes: str = "do it",
        no: str = "leave it",
        caution: str = "",
        careful: bool = False,
    ) -> None:
        super().__init__(title, caution)
        self._will, self._yes, self._no, self._careful = tuple(will), yes, no, careful

    def body(self) -> Iterable[Widget]:
        yield from (said(with_keys(line, own_keys(self.app)), "question-line") for line in self._will)
        yield Horizontal(
            Button(Content(f"y  {self._yes}"), id="yes", compact=True),
            Button(Content(f"n  {self._no}"), id="no", compact=True),
            classes="question-answers",
        )

    def hint(self) -> str:
        return "enter takes the one that is lit   tab the other   esc leave"

    def on_mount(self) -> None:
        self.query_one("#no" if self._careful else "#yes", Button).focus()

    @on(Button.Pressed, "#yes")
    def action_yes(self) -> None:
        self.dismiss(True)

    @on(Button.Pressed, "#no")
    def action_no(self) -> None:
        self.dismiss(False)
