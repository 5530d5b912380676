"""All wishes that can be recorded. Each is carried out by the function of its name in the action module of its name:
``proposals.prints.StartPrint`` by ``record.actions.prints.start_print``.
"""

import dataclasses
import importlib
import re
from functools import cache
from typing import Any

MODULES = (
    "nouns",
    "prints",
    "printers",
    "spools",
    "bought",
    "orders",
    "lots",
    "slots",
    "revisions",
    "steps",
    "fits",
    "questions",
    "episodes",
    "notes",
    "files",
)


def action_name(wish: type[Any]) -> str:
    """``StartPrint`` as ``start_print``."""
    return re.sub(r"(?<!^)(?=[A-Z])", "_", wish.__name__).lower()


@cache
def wishes() -> dict[str, type[Any]]:
    """Every wish by the name of its action."""
    found: dict[str, type[Any]] = {}
    for name in MODULES:
        module = importlib.import_module(f"buildlog.proposals.{name}")
        for value in vars(module).values():
            if dataclasses.is_dataclass(value) and isinstance(value, type) and value.__module__ == module.__name__:
                if not value.__name__.startswith("_") and getattr(value, "WISH", True):
                    found[action_name(value)] = value
    return found
