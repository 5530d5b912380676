"""Refusals that a person may overrule, by a field of the same wish."""

from typing import Any

from buildlog.errors import MayOverrule
from buildlog.proposals.field import fields_of


def unless(field: str, wish: Any, message: str) -> MayOverrule:
    """The refusal of a wish whose field of that name would let it through."""
    label = next(known.label for known in fields_of(type(wish)) if known.name == field)
    return MayOverrule(message, field, label)
