"""A bare app in our dress for widgets and questions; what they draw is read back as plain text."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

import pytest
from textual.app import App, ComposeResult
from textual.message import Message
from textual.pilot import Pilot
from textual.widget import Widget

from buildlog.screens.themes import DARK, STYLES, dress


class Bench(App[None]):
    """Shows the widgets given, and keeps the messages that reach it and the answers of questions."""

    CSS_PATH = STYLES

    def __init__(self, widgets: Iterable[Widget] = (), theme: Any = DARK) -> None:
        super().__init__()
        self._shown = tuple(widgets)
        self.heard: list[Message] = []
        self.answers: list[Any] = []
        dress(self, theme)

    def compose(self) -> ComposeResult:
        yield from self._shown

    def ask(self, question: Any) -> None:
        self.push_screen(question, self.answers.append)

    def on_grid_highlighted(self, message: Message) -> None:
        self.heard.append(message)

    def on_grid_chosen(self, message: Message) -> None:
        self.heard.append(message)

    def on_grid_marked(self, message: Message) -> None:
        self.heard.append(message)

    @property
    def lines(self) -> list[str]:
        """The whole screen as text, a line each, trailing blanks taken off."""
        strips = self.screen._compositor.render_strips()
        return ["".join(segment.text for segment in strip).rstrip() for strip in strips]


@pytest.fixture
def bench() -> Callable[..., Bench]:
    def make(*widgets: Widget, theme: Any = DARK) -> Bench:
        return Bench(widgets, theme)

    return make


@pytest.fixture
def press() -> Callable[[Pilot[None], str], Any]:
    """Press keys named in one text: `await press(pilot, "down space enter")`."""

    async def go(pilot: Pilot[None], keys: str) -> None:
        await pilot.press(*keys.split())
        await pilot.pause()

    return go


@pytest.fixture
def text_of() -> Callable[[Sequence[Any]], str]:
    """The text of segments that a painter made."""
    return lambda segments: "".join(segment.text for segment in segments)
