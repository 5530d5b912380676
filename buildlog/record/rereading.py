"""What was written since the record was last read, as the journal tells: only those rows are read again."""

import sqlite3
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Mapping
from operator import attrgetter
from typing import Any, NamedTuple

from buildlog.facts.snapshot import V

TOO_MANY = 500
"""Our choice: where more rows of a table were written, all of it is read."""

_by_id: Callable[[Any], int] = attrgetter("id")


class Mark(NamedTuple):
    """How far a reading went. ``schema`` moves on when a backup is brought back (SQLite counts it up then) or the
    record is upgraded; ``newest`` is the newest entry of the journal with its group, None where there is none.
    """

    version: int
    schema: int
    newest: tuple[Any, ...] | None


def mark_of(connection: sqlite3.Connection) -> Mark:
    """Of the view that an open transaction has."""
    schema = connection.execute("PRAGMA schema_version").fetchone()[0]
    newest = connection.execute(f"{_ENTRY} ORDER BY entry.id DESC LIMIT 1").fetchone()
    return Mark(connection.execute("PRAGMA data_version").fetchone()[0], schema, newest)


_ENTRY = """SELECT entry.id, entry.table_name, entry.row_id, entry.after, entry.before, made.*
    FROM journal_entry entry JOIN journal_group made ON made.id = entry.group_id"""


def written_since(connection: sqlite3.Connection, then: Mark, now: Mark) -> dict[str, list[int]] | None:
    """Row ids by table, in order of id; None where the journal does not tell all: everything is to be read.

    That is so when a backup was brought back, or when something was written and no action of ours wrote it.
    """
    if then.schema != now.schema:
        return None
    if then.version == now.version:
        return {}
    newest_id = 0
    if then.newest is not None:
        newest_id = then.newest[0]
        if connection.execute(f"{_ENTRY} WHERE entry.id = ?", (newest_id,)).fetchone() != then.newest:
            return None
    found: dict[str, set[int]] = {}
    for table, row_id in connection.execute(
        "SELECT table_name, row_id FROM journal_entry WHERE id > ?", (newest_id,)
    ):
        found.setdefault(table, set()).add(row_id)
    return {table: sorted(ids) for table, ids in found.items()} or None


def patched(rows: tuple[V, ...], ids: Iterable[int], fresh: Mapping[int, V]) -> tuple[V, ...]:
    """Rows in order of id, those of ``ids`` as they are in ``fresh`` (gone where they are not in it); the same object
    where none differs.
    """
    kept = list(rows)
    differing = list(_differing(rows, ids, fresh))
    for place, is_there, row in reversed(differing):
        kept[place : place + is_there] = [] if row is None else [row]
    return tuple(kept) if differing else rows


def _differing(
    rows: tuple[V, ...], ids: Iterable[int], fresh: Mapping[int, V]
) -> Iterator[tuple[int, bool, V | None]]:
    """Place among the rows, whether there is such a row, and the row as it is now."""
    for row_id in ids:
        place = bisect_left(rows, row_id, key=_by_id)
        is_there = place < len(rows) and _by_id(rows[place]) == row_id
        row = fresh.get(row_id)
        if row != (rows[place] if is_there else None):
            yield place, is_there, row
