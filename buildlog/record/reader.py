"""Reads the record: SQL text on a kept read-only connection of the standard library, into frozen rows."""

import dataclasses
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from enum import StrEnum
from functools import cache
from pathlib import Path
from threading import Lock
from types import UnionType
from typing import Any, NamedTuple, TypeVar, Union, get_args, get_origin, get_type_hints

from buildlog.errors import LedgerChanged, LedgerGone
from buildlog.facts.builds import Settings
from buildlog.facts.collection import no_collection
from buildlog.facts.frozen import many
from buildlog.facts.journal import FileRow, JournalGroup
from buildlog.facts.reference_data import Reference
from buildlog.facts.snapshot import Snapshot
from buildlog.record.head import HEAD, head_of
from buildlog.record.of_printers import OF_PRINTERS
from buildlog.record.reading_from import read_uri
from buildlog.record.rereading import TOO_MANY, Mark, mark_of, patched, written_since
from buildlog.terms import Moment

R = TypeVar("R")

TABLE_NAMES = {
    "builds": "build",
    "assemblies": "assembly",
    "boxes": "box",
    "lot_entries": "lot_entry",
    "spool_entries": "spool_entry",
    "bought_entries": "bought_entry",
    "orders": "purchase",
    "steps_done": "step_done",
    "fit_touches": "fit_touch",
    "settings": "settings",
}


def table_name(plural: str) -> str:
    """The table behind a field of the Snapshot."""
    return TABLE_NAMES.get(plural, plural.removesuffix("s"))


def plain_type(annotation: Any) -> Any:
    """The type behind an optional annotation."""
    if get_origin(annotation) in (Union, UnionType):
        return next(arg for arg in get_args(annotation) if arg is not type(None))
    return annotation


def is_optional(annotation: Any) -> bool:
    return get_origin(annotation) in (Union, UnionType) and type(None) in get_args(annotation)


@cache
def _convert(annotation: Any) -> Callable[[Any], Any] | None:
    """How a stored value becomes the annotated one; None where it already is."""
    kind = plain_type(annotation)
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        members: dict[Any, Any] = {member.value: member for member in kind}
        members[None] = None
        return members.__getitem__
    if kind is bool:
        return bool
    return None


def row_query(row: type[Any], table: str, tail: str = "ORDER BY id") -> str:
    names = ", ".join(f'"{field.name}"' for field in dataclasses.fields(row))
    return f'SELECT {names} FROM "{table}" {tail}'.rstrip()


def rows_of(row: type[R], found: list[tuple[Any, ...]]) -> tuple[R, ...]:
    """Stored rows as frozen ones. Facts check and derive nothing when they are made, so nothing is passed by where
    they are made many at once (a test compares them with rows that were called for).
    """
    of: Any = row
    return _made_of(of)(found)


@cache
def _made_of(row: Any) -> Callable[[list[tuple[Any, ...]]], tuple[Any, ...]]:
    hints: dict[str, Any] = {field.name: field.type for field in dataclasses.fields(row)}
    return many(row, {name: turn for name, hint in hints.items() if (turn := _convert(hint))})


def _file_at(path: Path) -> tuple[int, int] | None:
    """Which file has that name now; None for none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


class Reader:
    """One read-only connection in autocommit, so that it also notices what others write."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._connection = sqlite3.connect(read_uri(path), uri=True, isolation_level=None, check_same_thread=False)
        self._connection.execute("PRAGMA query_only = ON")
        self._file = _file_at(path)
        self._held: _Held | None = None
        self._one_at_a_time = Lock()

    def close(self) -> None:
        self._connection.close()

    def version(self) -> int:
        """Changes whenever another connection has committed; LedgerGone where the file is another one by now."""
        self.same_file()
        return int(self._connection.execute("PRAGMA data_version").fetchone()[0])

    def same_file(self) -> None:
        """The open connection goes on with a file that has no name any more: what is written there is lost."""
        if _file_at(self.path) != self._file:
            raise LedgerGone(self.path)

    @contextmanager
    def _still(self) -> Iterator[sqlite3.Connection]:
        """One unmoving view of the whole record while several tables are read; of two threads one waits.

        LedgerChanged where another version of the program has upgraded it.
        """
        with self._one_at_a_time:
            self._connection.execute("BEGIN")
            try:
                if head_of(self._connection) != HEAD:
                    raise LedgerChanged(self.path)
                yield self._connection
            finally:
                self._connection.execute("COMMIT")

    def snapshot(self, reference: Reference, afresh: bool = False) -> Snapshot:
        """Every noun, read at one moment. What was read before is held, and only rows that the journal names since
        are read again; ``afresh`` all of them are, where the last reading was not of all.
        """
        held = self._held
        with self._still() as connection, no_collection():
            mark, written = mark_of(connection), None
            if held is not None and not (afresh and held.patched):
                written = written_since(connection, held.mark, mark)
            if held is None or written is None:
                snapshot, patched = _whole(connection, reference, held and held.snapshot), False
            else:
                snapshot = _brought_up(connection, held.snapshot, written)
                patched = held.patched or snapshot is not held.snapshot
        self._held = _Held(mark, snapshot, patched)
        return snapshot

    def of_printers(self, reference: Reference, now: Moment) -> Snapshot:
        """Only what tells what is on the printers at ``now``; of other nouns no row, whatever the record holds."""
        with self._still() as connection:
            rows = {name: _stored(connection, name, where, now) for name, where in OF_PRINTERS.items()}
        return Snapshot(**dict.fromkeys(SNAPSHOT_FIELDS, ()) | _told(rows), reference=reference)

    def settings(self) -> Settings:
        return rows_of(Settings, self._connection.execute(row_query(Settings, "settings")).fetchall())[0]

    def groups(self, newest: int) -> tuple[JournalGroup, ...]:
        """The newest journal groups, newest first."""
        query = row_query(JournalGroup, "journal_group", "ORDER BY id DESC LIMIT ?")
        return rows_of(JournalGroup, self._connection.execute(query, (newest,)).fetchall())

    def entries(self, group_id: int) -> list[tuple[str, int, str | None, str | None]]:
        """(table, row, before, after) of a journal group, in the order written; images are JSON as stored."""
        return self._connection.execute(
            "SELECT table_name, row_id, before, after FROM journal_entry WHERE group_id = ? ORDER BY id",
            (group_id,),
        ).fetchall()

    def file_rows(self) -> tuple[FileRow, ...]:
        return rows_of(FileRow, self._connection.execute(row_query(FileRow, "file_row")).fetchall())


def _row_type(name: str) -> type[Any]:
    hint = _HINTS[name]
    return hint if name == "settings" else get_args(hint)[0]  # type: ignore[no-any-return]  # get_args gives Any


def _stored(connection: sqlite3.Connection, name: str, where: str = "", now: str = "") -> tuple[Any, ...]:
    """Rows of one noun in order of id; ``:now`` may stand in the condition."""
    row, rows = _row_type(name), list[Any]()
    cursor = connection.execute(row_query(row, table_name(name), f"{where} ORDER BY id"), {"now": now})
    while found := cursor.fetchmany(AT_ONCE):
        rows += rows_of(row, found)
    return tuple(rows)


AT_ONCE = 1000
"""Our choice: so many stored rows are there before the frozen ones are made of them; all at once cost more."""


class _Held(NamedTuple):
    """The last reading; ``patched``: only some rows of it were read then."""

    mark: Mark
    snapshot: Snapshot
    patched: bool


def _whole(connection: sqlite3.Connection, reference: Reference, held: Snapshot | None) -> Snapshot:
    """All rows; nouns of which no row differs from what was held stay the same objects."""
    rows = {name: _stored(connection, name) for name in SNAPSHOT_FIELDS}
    if held is None:
        return Snapshot(**_told(rows), reference=reference)
    changed = {name: found for name, found in _told(rows).items() if found != getattr(held, name)}
    return held.with_changed(**changed, reference=reference)


def _told(rows: dict[str, tuple[Any, ...]]) -> dict[str, Any]:
    """As the Snapshot takes them: of the settings there is one row."""
    return {name: found[0] if name == "settings" else found for name, found in rows.items()}


def _brought_up(connection: sqlite3.Connection, held: Snapshot, written: dict[str, list[int]]) -> Snapshot:
    """What was held, with the rows that were written since as they are now."""
    changed: dict[str, tuple[Any, ...]] = {}
    for name in SNAPSHOT_FIELDS:
        ids = written.get(table_name(name))
        if ids is None:
            continue
        before = (held.settings,) if name == "settings" else getattr(held, name)
        if len(ids) > TOO_MANY:
            changed[name] = _stored(connection, name)
        else:
            fresh = _stored(connection, name, f"WHERE id IN ({', '.join(map(str, ids))})")
            rows = patched(before, ids, {row.id: row for row in fresh})
            if rows is not before:
                changed[name] = rows
    return held.with_changed(**_told(changed)) if changed else held


_HINTS = get_type_hints(Snapshot)
SNAPSHOT_FIELDS = tuple(field.name for field in dataclasses.fields(Snapshot) if field.name != "reference")
