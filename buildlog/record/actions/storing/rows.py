"""Rows of a unit of work by table, code and key."""

import difflib
from collections.abc import Sequence
from typing import Any

from sqlalchemy import Enum

from buildlog.errors import NotFound, Refused
from buildlog.proposals.nouns import key_of
from buildlog.proposals.recorded import is_live, live_forms, rows_named, table_of
from buildlog.record.tables import TABLES, Row
from buildlog.record.writer import Work


class WorkRows:
    """The rows of a unit of work, as `proposals.recorded` asks for them."""

    def __init__(self, work: Work) -> None:
        self._work = work

    def all(self, table: str, **equal: object) -> Sequence[Any]:
        return self._work.all(TABLES[table], **equal)


def enum_of(table: type[Row], column: str, value: Any) -> Any:
    """The value as the member of the column's enum, where it has one."""
    kind = table.metadata.tables[str(table.__tablename__)].columns[column].type
    if isinstance(kind, Enum) and kind.enum_class is not None and value is not None:
        return kind.enum_class(value)
    return value


def live_row(work: Work, noun: str, code: str) -> Any:
    """The thing of that code, which must be in use."""
    row = work.by_code(TABLES[table_of(noun)], code, noun)
    if not is_live(row):
        raise Refused(f"{noun} «{code}» is retired: bring it back first, or name another one.")
    return row


def named_row(work: Work, noun: str, key: str, live: bool) -> Any:
    """The thing in use that a key names (or the one retired last); NotFound names near ones."""
    rows = WorkRows(work)
    named = rows_named(rows, noun, key)
    found = [row for row in named if is_live(row) is live]
    if found:
        return found[-1]
    if named and live:
        raise Refused(f"{noun} «{key}» is retired: bring it back first.")
    if named:
        raise Refused(f"{noun} «{key}» is in use: there is nothing to bring back. Name a retired one.")
    known = [key_of(form) for form in live_forms(rows, noun)]
    raise NotFound(noun, key, tuple(difflib.get_close_matches(key.upper(), known, 3)))
