"""What is wrong with a form in itself, at which field; what needs the record to tell is checked by the actions."""

import re
from collections.abc import Iterator
from typing import Any

from buildlog.proposals.field import CODE_SHAPE, Field, Kind, fields_of
from buildlog.proposals.problems_across import ACROSS

Problem = tuple[str, str]

_MOMENT_SHAPE = re.compile(r"\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}Z")


def problems(form: Any) -> tuple[Problem, ...]:
    """(field, message) for every breach; the form of the record's own CHECKs is found here first."""
    found = [(field.name, message) for field in fields_of(type(form)) for message in _alone(field, form)]
    if not found and form.NOUN in ACROSS:
        found.extend(ACROSS[form.NOUN](form))
    return tuple(found)


def _alone(field: Field, form: Any) -> Iterator[str]:
    """What is wrong with one value, whatever the others are."""
    value = getattr(form, field.name)
    if value is None or value == "":
        if field.required or (value is None and field.default is not None):
            yield f"{field.label} is missing"
        return
    if field.kind in (Kind.CODE, Kind.REFERENCE) and not CODE_SHAPE.fullmatch(str(value)):
        yield f"«{value}» is no code: use capital letters, digits, dot, dash, underscore, at most 24"
    if field.kind is Kind.MOMENT and not _MOMENT_SHAPE.fullmatch(str(value)):
        yield f"«{value}» is no moment"
    if field.kind is Kind.YES_NO and value not in (True, False):
        yield f"«{value}» is neither yes nor no"
    if field.kind is Kind.CHOICE and field.read is None and value not in field.choices:
        yield f"«{value}» is none of: {', '.join(field.choices)}"
    if field.kind is Kind.CHOICE and field.read is not None and value not in range(len(field.choices)):
        yield f"is none of: {', '.join(field.choices)}"
    if isinstance(value, int) and not isinstance(value, bool) and (beyond := field.beyond(value)):
        yield beyond
