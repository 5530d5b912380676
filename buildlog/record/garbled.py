"""Rows that no program of ours can have written: an unknown word, a text where a number stands, no moment.

SQLite tells of a broken file and of broken constraints by table; this tells the row and the column.
"""

import re
import sqlite3
from collections.abc import Callable, Iterator
from datetime import datetime
from enum import StrEnum
from typing import Any, get_args, get_type_hints

from buildlog.facts.snapshot import Snapshot
from buildlog.record.reader import SNAPSHOT_FIELDS, is_optional, plain_type, row_query, table_name
from buildlog.terms import Moment

_MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")
_EXPECTED = {bool: "0 or 1", int: "a whole number", float: "a number", str: "a text", Moment: "a moment"}
_SHOWN = 60


def garbled_rows(connection: sqlite3.Connection) -> Iterator[str]:
    """A sentence for each value that cannot be read as what its column holds."""
    hints = get_type_hints(Snapshot)
    for plural in SNAPSHOT_FIELDS:
        row = hints[plural] if plural == "settings" else get_args(hints[plural])[0]
        table = table_name(plural)
        found = connection.execute(row_query(row, table)).fetchall()
        if plural == "settings" and len(found) != 1:
            yield f"{table} has {len(found)} rows, it must have one"
        checks = [(name, *_check(hint)) for name, hint in get_type_hints(row).items()]
        for values in found:
            for (name, holds, expected), value in zip(checks, values, strict=True):
                if not holds(value):
                    yield f"{table} {values[0]}: {name} is «{str(value)[:_SHOWN]}», it must be {expected}"


def _check(annotation: Any) -> tuple[Callable[[Any], bool], str]:
    """Whether a stored value is what the annotation says, and what that is in words."""
    kind = plain_type(annotation)
    empty_too = is_optional(annotation)
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        words = frozenset(member.value for member in kind)
        return (lambda value: value in words or (empty_too and value is None)), f"one of: {', '.join(sorted(words))}"
    return (lambda value: (empty_too and value is None) or _is(kind, value)), _EXPECTED[kind]


def _in_calendar(text: str) -> bool:
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return True


def _is(kind: Any, value: Any) -> bool:
    if kind is Moment:
        return isinstance(value, str) and _MOMENT.fullmatch(value) is not None and _in_calendar(value)
    if kind is bool:
        return value in (0, 1)
    if kind is float:
        return isinstance(value, int | float)
    return isinstance(value, kind)
