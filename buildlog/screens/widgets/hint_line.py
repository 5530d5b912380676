"""The last line of a question: its keys in words; a click on one is as good as the key."""

from __future__ import annotations

from collections.abc import Sequence

from rich.style import Style
from rich.text import Text
from textual.widgets import Static

from buildlog.screens.keys import Key
from buildlog.screens.widgets.cells import clean


class HintLine(Static):
    """`keys` are those that do something where the text names them."""

    def __init__(self, text: str, keys: Sequence[Key]) -> None:
        told = Text(clean(text))
        for key in keys:
            named = f"{key.face} {key.label}"
            at = told.plain.find(named)
            if at >= 0 and len(key.keys) == 1:
                click = f"screen.{key.action.format(key=key.keys[0])}"
                told.stylize(Style(meta={"@click": click}), at, at + len(named))
        super().__init__(told, markup=False, classes="question-hint")
        self.auto_links = False  # they look as they do everywhere
        self._told = told

    def tell_beside(self, text: str) -> None:
        """Something more after the keys."""
        self.update(Text.assemble(self._told, f"   {clean(text)}" if text else ""))
