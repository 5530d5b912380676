"""The screens by name, and where each kind of thing is at home. A screen is loaded when it is first shown."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from typing import Any

from textual.screen import Screen

FIRST = "today"
_modules: list[str] = []


def _made(module: str, name: str) -> Callable[[], Screen[None]]:
    _modules.append(module)

    def make() -> Screen[None]:
        screen: Screen[None] = getattr(importlib.import_module(f"buildlog.screens.{module}"), name)()
        return screen

    return make


MODES: dict[str, str | Callable[[], Screen[Any]]] = {
    "today": _made("today", "Today"),
    "mirror": _made("mirror", "Mirror"),
    "prints": _made("prints", "Prints"),
    "stock": _made("stock", "StockScreen"),
    "fits": _made("fits", "FitsScreen"),
    "journal": _made("journal", "Journal"),
    "things": _made("things", "Things"),
    "episode": _made("episode", "EpisodeScreen"),
    "boxes": _made("boxes", "BoxesScreen"),
    "catch_up": _made("catch_up", "CatchUp"),
}


SHOWN_WITH = (
    "facts.default_boxes",
    "report.week",
    "screens.mirror_blockers",
    "screens.stock_chart",
    "screens.stock_shelf",
    "screens.stock_told",
    "status.boxes",
    "status.burn_down",
    "status.catch_up",
    "status.forms",
    "status.more_hands",
    "status.notes",
    "status.on_top",
    "status.spool_curve",
)
"""What screens load when they show a Status, beside their rows."""


def load_screens() -> None:
    """Load what a screen takes when it is first shown: its class, its rows, and what these ask."""
    screens = [f"screens.{module}{part}" for module in _modules for part in ("", "_rows")]
    for module in (*screens, *SHOWN_WITH):
        importlib.import_module(f"buildlog.{module}")


HOMES = {
    **dict.fromkeys(
        ("build", "assembly", "position", "part", "usage", "step", "fit test", "question", "lot"), "mirror"
    ),
    **dict.fromkeys(("printer", "print", "print file", "job"), "prints"),
    **dict.fromkeys(("spool", "material", "bought item", "order", "supplier", "basket"), "stock"),
    **dict.fromkeys(("milestone", "episode", "goal", "shot", "viewer question", "promise"), "episode"),
    **dict.fromkeys(("resource", "settings", "wait"), "things"),
    "box": "boxes",
}
