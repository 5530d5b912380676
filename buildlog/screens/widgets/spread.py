"""Texts of several tones laid into so many cells."""

from __future__ import annotations

from collections.abc import Iterable

from rich.segment import Segment

from buildlog.screens.widgets.cells import Align, cut, width_of
from buildlog.screens.widgets.tones import Brush, Tone


def spread(spans: Iterable[tuple[str, Tone]], width: int, align: Align, brush: Brush) -> list[Segment]:
    """The spans as segments of exactly `width` cells, cut with `…` in the span that no longer fits."""
    parts: list[Segment] = []
    left = width
    todo = [(text, tone) for text, tone in spans if text]
    for i, (text, tone) in enumerate(todo):
        more = i + 1 < len(todo) and width_of(text) >= left
        shown = cut(text + "…" if more else text, left)
        parts.append(Segment(shown, brush.of(tone)))
        left -= width_of(shown)
        if left <= 0 or more:
            break
    before = {Align.LEFT: 0, Align.RIGHT: left, Align.CENTRE: left // 2}[align]
    blank = brush.of(Tone.PLAIN)
    return [Segment(" " * before, blank), *parts, Segment(" " * (left - before), blank)]
