"""Contrast by WCAG 2.2, success criterion 1.4.3: at least 4.5 : 1; formula of its «relative luminance»."""

from collections.abc import Callable
from typing import Any

import pytest
from textual.color import Color
from textual.theme import Theme

from buildlog.screens.themes import THEMES
from buildlog.screens.widgets.tones import Tone

GROUNDS = ("background", "panel", "ground-cursor", "ground-cursor-blurred", "ground-band")


def luminance(color: Color) -> float:
    def linear(part: int) -> float:
        share = part / 255
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    return 0.2126 * linear(color.r) + 0.7152 * linear(color.g) + 0.0722 * linear(color.b)


def contrast(one: Color, other: Color) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def colour(theme: Theme, name: str) -> Color:
    return Color.parse({**theme.to_color_system().generate(), **theme.variables}[name])


def variable_of(tone: Tone) -> str:
    return "foreground" if tone is Tone.PLAIN else f"tone-{tone.value}"


def test_black_on_white_is_21_to_1() -> None:
    # WCAG 2.2, definition of contrast ratio: the ratio runs from 1 to 21
    assert contrast(Color.parse("#000000"), Color.parse("#ffffff")) == pytest.approx(21)


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_every_tone_can_be_read_on_every_ground(theme: Theme) -> None:
    pale = {
        (tone.value, ground): ratio
        for tone in Tone
        for ground in GROUNDS
        if (ratio := contrast(colour(theme, variable_of(tone)), colour(theme, ground))) < 4.5
    }
    assert pale == {}


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_the_lit_answer_of_a_question_can_be_read(theme: Theme) -> None:
    assert contrast(colour(theme, "accent"), colour(theme, "panel")) >= 4.5


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
async def test_the_styles_are_whole_in_each_theme(theme: Theme, bench: Callable[..., Any]) -> None:
    app = bench(theme=theme)
    async with app.run_test():
        assert set(app.available_themes) == {own.name for own in THEMES}
        assert app.current_theme is theme
