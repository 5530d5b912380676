"""Our two themes: a lantern in the dark, and paper by daylight.

    class Buildlog(App[None]):
        CSS_PATH = STYLES
        def __init__(self) -> None:
            super().__init__()
            dress(self)

Every tone takes its colour from a variable set here (`tone-good` …); a test computes that each has a contrast of at
least 4.5 : 1 (WCAG 2.2, 1.4.3) on the ground, the panel, the cursor line and the band.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from textual.app import App
from textual.screen import Screen
from textual.theme import Theme

SHELL = Path(__file__).parent / "shell.tcss"
STYLES = Path(__file__).parent / "styles.tcss"

DARK = Theme(
    name="lantern",
    dark=True,
    primary="#e8a33d",
    secondary="#8fa3b8",
    accent="#e8a33d",
    warning="#f0b45a",
    error="#f2857b",
    success="#93c48b",
    foreground="#e6dfd3",
    background="#15171b",
    surface="#15171b",
    panel="#1e2127",
    variables={
        "ground-cursor": "#38322a",
        "ground-cursor-blurred": "#24272d",
        "ground-band": "#2c3038",
        "tone-strong": "#fbf3e3",
        "tone-faint": "#a09d97",
        "tone-accent": "#f0ad4a",
        "tone-good": "#93c48b",
        "tone-caution": "#f2c15f",
        "tone-bad": "#f79287",
        "tone-held": "#a9b8d6",
        "tone-stand-in": "#cda9d8",
        "rule": "#4a4d55",
        "input-selection-background": "#e8a33d 35%",
    },
)

LIGHT = Theme(
    name="paper",
    dark=False,
    primary="#8a5200",
    secondary="#4c5d70",
    accent="#8a5200",
    warning="#7a5200",
    error="#a3261c",
    success="#2f6a2b",
    foreground="#26231d",
    background="#f7f3ea",
    surface="#f7f3ea",
    panel="#ece6d8",
    variables={
        "ground-cursor": "#f3dfb8",
        "ground-cursor-blurred": "#e6e0d2",
        "ground-band": "#e2dccd",
        "tone-strong": "#0f0d0a",
        "tone-faint": "#5f5a50",
        "tone-accent": "#7f4a00",
        "tone-good": "#2a6127",
        "tone-caution": "#6f4a00",
        "tone-bad": "#9a2219",
        "tone-held": "#38497a",
        "tone-stand-in": "#6f3a80",
        "rule": "#b3ab9a",
        "input-selection-background": "#8a5200 30%",
    },
)

THEMES = (DARK, LIGHT)


def read_styles(app: App[Any]) -> None:
    """The style sheets that the first frame does without: of lists and questions, then of each screen.

    Read one by one when a screen is first shown, each would have all of them parsed anew.
    """
    for path in (STYLES, *sorted(STYLES.parent.glob("*.tcss"))):
        if not app.stylesheet.has_source(str(path), ""):
            app.stylesheet.read(path)


def styled_from_the_start(screen: Screen[Any]) -> None:
    """Say that a screen which is being made needs no styles but those that it is mounted with.

    Textual takes a new screen for one that was out of view while the theme changed: it parses all style sheets anew
    and applies them to everything, twice. The attribute is its own affair; without it opening is slower, no more.
    And it sets the classes of the window's size only when all is mounted, to style all of it once more.
    """
    screen._css_update_count = getattr(screen.app, "_css_update_count", -1)
    size = screen.app.size
    for breakpoints, cells in (
        (screen.HORIZONTAL_BREAKPOINTS, size.width),
        (screen.VERTICAL_BREAKPOINTS, size.height),
    ):
        reached = [(least, name) for least, name in breakpoints or () if cells >= least]
        screen.add_class(*(name for _, name in sorted(reached)[-1:]), update=False)


def dress(app: App[Any], theme: Theme = DARK) -> None:
    """Give an app our themes instead of Textual's, which lack the variables that styles.tcss asks for.

    Before it runs: switching has all style sheets parsed once more, and the first frame would wait for that.
    """
    foreign = list(app.available_themes)
    for own in THEMES:
        app.register_theme(own)
    app.set_reactive(App.theme, theme.name)
    app.set_class(True, f"-theme-{theme.name}")
    app.set_class(theme.dark, "-dark-mode")
    app.set_class(not theme.dark, "-light-mode")
    app.stylesheet.set_variables(app.get_css_variables())
    for name in foreign:
        app.unregister_theme(name)
