"""The first line: the screens with their keys, the one in view lit, and the moment of what is shown."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events

from buildlog.screens.keys import KEYS
from buildlog.screens.own_keys import as_set, own_keys
from buildlog.screens.widgets.cells import width_of
from buildlog.screens.widgets.key_line import KeyClicked
from buildlog.screens.widgets.span_line import SpanLine
from buildlog.screens.widgets.tones import Tone

TABS = tuple(key for key in KEYS if key.id.startswith("go_"))

UNNAMED = ("go_boxes",)
"""Screens that are named only while they are in view, so that the others have room."""


class TitleLine(SpanLine):
    """Drawn from KEYS; `as_of` is the moment in words. A narrow line drops blanks, then the last names."""

    def __init__(self, name: str, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._name = name
        self._as_of = ""

    def show(self, as_of: str) -> None:
        self._as_of = as_of
        self.refresh()

    def spans(self, width: int) -> Sequence[tuple[str, Tone]]:
        counts = range(len(TABS), -1, -1)
        ways = (self._tabs(" ", len(TABS)), *(self._tabs("", named) for named in counts))
        spans = next((way for way in ways if _width(way) <= width), ways[-1])
        gap = width - _width(spans) - width_of(self._as_of) - 2
        return [*spans, (" " * gap + self._as_of, Tone.FAINT)] if gap > 0 else spans

    def on_click(self, event: events.Click) -> None:
        """A click on a screen's name goes there."""
        by_face = {key.face: key for key in as_set(TABS, own_keys(self.app))}
        key, end = None, 0
        for text, tone in self.spans(self.size.width):
            key = by_face.get(text) if tone is Tone.ACCENT else key
            end += width_of(text)
            if event.x < end:
                break
        if key is not None and self._as_of not in text:
            self.post_message(KeyClicked(key))

    def _tabs(self, beside: str, named: int) -> list[tuple[str, Tone]]:
        """So many with their name, and the one in view; the others by their key alone."""
        spans: list[tuple[str, Tone]] = [(" ", Tone.PLAIN)]
        for number, key in enumerate(as_set(TABS, own_keys(self.app))):
            here = key.id == f"go_{self._name}"
            if not here and key.id in UNNAMED:
                continue
            left, right, tone = ("[", "]", Tone.STRONG) if here else (beside, beside, Tone.FAINT)
            label = f" {key.label}{right} " if number < named or here else " "
            spans += [(left, tone), (key.face, Tone.ACCENT), (label, tone)]
        return spans


def _width(spans: Sequence[tuple[str, Tone]]) -> int:
    return sum(width_of(text) for text, _ in spans)
