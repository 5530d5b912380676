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
    "assemblies",
    "prints",
    "printers",
    "spools",
    "bought",
    "orders",
    "lots",
    "boxes",
    "slots",
    "revisions",
    "steps",
    "fits",
    "questions",
    "episodes",
    "shots",
    "viewers",
    "promises",
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
            if _is_wish(value, module.__name__):
                found[action_name(value)] = value
    return found


def _is_wish(value: object, module: str) -> bool:
    return isinstance(value, type) and dataclasses.is_dataclass(value) and value.__module__ == module
