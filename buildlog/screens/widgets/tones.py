"""Tones: what a piece of text means, never which colour it has.

themes.py gives each tone its colour (variable `tone-NAME`); each tone that judges also carries a sign, and weight or
slant, so that a terminal without colour says the same. A widget that paints tones asks `brush_for(self)`.

Tones are no component classes: those are styled anew for every widget, a third of the time to the first frame.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from enum import StrEnum
from functools import lru_cache

from rich.style import Style
from textual.widget import Widget

from buildlog.facts.frozen import frozen


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

BOLD = frozenset({Tone.STRONG, Tone.CAUTION, Tone.BAD})
SLANTED = frozenset({Tone.HELD, Tone.STAND_IN})


def variable_of(tone: Tone) -> str:
    """The variable of the theme that holds the colour of a tone."""
    return "foreground" if tone is Tone.PLAIN else f"tone-{tone.value}"


@frozen
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
    return Brush(tones_of(widget), widget.rich_style)


def tones_of(widget: Widget) -> Mapping[Tone, Style]:
    """The style of each tone in the theme of the moment."""
    variables = widget.app.theme_variables
    return _styles(tuple(variables[variable_of(tone)] for tone in Tone))


@lru_cache(maxsize=4)
def _styles(colours: tuple[str, ...]) -> Mapping[Tone, Style]:
    def style(tone: Tone, colour: str) -> Style:
        return Style(color=colour, bold=tone in BOLD or None, italic=tone in SLANTED or None)

    return {tone: style(tone, colour) for tone, colour in zip(Tone, colours, strict=True)}
