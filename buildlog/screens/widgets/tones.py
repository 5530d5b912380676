"""Tones: what a piece of text means, never which colour it has.

styles.tcss gives each tone its colour (class `tone--NAME`); each tone that judges also carries a sign, and
weight or underline, so that a terminal without colour says the same.
A widget that paints tones lists `TONE_CLASSES` among its COMPONENT_CLASSES and asks `brush_for(self)`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum

from rich.style import Style
from textual.widget import Widget


class Tone(StrEnum):
    PLAIN = "plain"
    STRONG = "strong"
    FAINT = "faint"
    ACCENT = "accent"
    GOOD = "good"
    CAUTION = "caution"
    BAD = "bad"
    HELD = "held"
    STAND_IN = "stand-in"


SIGNS: Mapping[Tone, str] = {
    Tone.GOOD: "✓",
    Tone.CAUTION: "!",
    Tone.BAD: "✗",
    Tone.HELD: "‖",
    Tone.STAND_IN: "~",
}

TONE_CLASSES = frozenset(f"tone--{tone.value}" for tone in Tone)


@dataclass(frozen=True, slots=True)
class Brush:
    """What a painter is given: the style of each tone over the row's own, and the row's place in its tree.

    `folded` is None for a row with nothing beneath it.
    """

    tones: Mapping[Tone, Style] = field(default_factory=dict)
    base: Style = field(default_factory=Style.null)
    depth: int = 0
    folded: bool | None = None

    def of(self, tone: Tone) -> Style:
        return self.base + self.tones.get(tone, Style.null())

    def on(self, base: Style, depth: int = 0, folded: bool | None = None) -> Brush:
        return replace(self, base=base, depth=depth, folded=folded)


def brush_for(widget: Widget) -> Brush:
    """The brush of a mounted widget in the theme of the moment."""
    tones = {tone: widget.get_component_rich_style(f"tone--{tone.value}", partial=True) for tone in Tone}
    return Brush(tones, widget.rich_style)
