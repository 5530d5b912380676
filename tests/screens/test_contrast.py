"""Every text as it is painted, on the ground that it is painted on: at least 4.5 : 1 (WCAG 2.2, 1.4.3)."""

from __future__ import annotations

from typing import Any

import pytest
from textual.color import Color

from buildlog.ledger import Ledger
from buildlog.screens.themes import LIGHT, THEMES
from tests.screens.test_themes import contrast

DECORATION = frozenset(" ─━╌┊│┤┴└▁▂▃▄▅▆▇█▌▏▐▎▍▋")
"""Rules, axes, edges and scrollbars carry no text."""
WALKS = (
    "1 down down b tab escape slash d",
    "2 down down enter right_square_bracket",
    "3 down space",
    "4 down",
    "5",
    "7",
    "8 r",
    "9 down down e down down",
    "0",
    "ctrl+o",
    "1 question_mark",
    "1 ctrl+p",
    "1 colon s t a",
    "1 s",
    "1 f",
    "1 x down down down right",
    "1 w",
    "1 l",
    "4 o",
    "2 v",
)


def pale(app: Any) -> dict[tuple[str, str, str], float]:
    """Texts of the topmost screen that stand out too little, with their colours."""
    region = app.screen.query_one("#question").region if app.screen.query("#question") else app.screen.region
    found = {}
    for strip in app.screen._compositor.render_strips()[region.y : region.bottom]:
        for segment in strip.crop(region.x, region.right):
            text = "".join(letter for letter in segment.text if letter not in DECORATION)
            if not text or segment.style is None:
                continue
            one, other = (Color.from_rich_color(c) for c in (segment.style.color, segment.style.bgcolor))
            if segment.style.reverse:
                one, other = other, one
            if (ratio := contrast(one, other)) < 4.5:
                found[text, one.hex, other.hex] = round(ratio, 1)
    return found


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
async def test_every_text_of_screens_and_questions_can_be_read(theme: Any, workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        if theme is LIGHT:
            await on.press("ctrl+t")
        assert on.app.theme == theme.name
        for walk in WALKS:
            await on.press(walk)
            assert pale(on.app) == {}, walk
            while on.app.screen is not on.app.shown:
                await on.press("escape")
