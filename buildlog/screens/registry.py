"""The screens by name, and where each kind of thing is at home. A screen is loaded when it is first shown."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from typing import Any

from textual.screen import Screen

FIRST = "today"


def _made(module: str, name: str) -> Callable[[], Screen[None]]:
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
    "catch_up": _made("catch_up", "CatchUp"),
}

HOMES = {
    **dict.fromkeys(
        ("build", "assembly", "position", "part", "usage", "step", "fit test", "question", "lot"), "mirror"
    ),
    **dict.fromkeys(("printer", "print", "print file", "job"), "prints"),
    **dict.fromkeys(("spool", "material", "bought item", "order", "supplier", "basket"), "stock"),
    **dict.fromkeys(("milestone", "episode", "goal"), "today"),
    **dict.fromkeys(("box", "resource", "settings", "wait"), "things"),
}
