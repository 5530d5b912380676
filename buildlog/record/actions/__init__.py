"""The only writers. One short function per wish, found by name; all of it happens, or nothing."""

import importlib
from typing import TYPE_CHECKING, Any

from buildlog.proposals.wishes import action_name

if TYPE_CHECKING:
    from buildlog.record.writer import Work


def perform(wish: Any, work: "Work") -> str:
    """Carry the wish out inside a unit of work; returns what happened in one sentence."""
    module = type(wish).__module__.rsplit(".", 1)[1]
    action = getattr(importlib.import_module(f"buildlog.record.actions.{module}"), action_name(type(wish)))
    return str(action(wish, work))
