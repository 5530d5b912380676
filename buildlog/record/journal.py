"""The journal of a session: every row it writes, as stored before and after, re-read by primary key."""

import json
from collections.abc import Iterable
from typing import Any

from sqlalchemy import event
from sqlmodel import Session

from buildlog.record.tables import JOURNAL_TABLES
from buildlog.record.tables.journal import JournalGroup

Key = tuple[str, int]


Entry = tuple[str, int, str | None, str | None]
"""Table, row id, the row before and after."""

AT_ONCE = 500  # SQLite takes at least 999 values in one statement


def stored_rows(session: Session, keys: Iterable[Key]) -> dict[Key, str]:
    """The rows as they stand in the file, those that are there."""
    by_table: dict[str, list[int]] = {}
    for table, row_id in keys:
        by_table.setdefault(table, []).append(row_id)
    found: dict[Key, str] = {}
    for table, ids in by_table.items():
        for start in range(0, len(ids), AT_ONCE):
            some = ids[start : start + AT_ONCE]
            query = f'SELECT * FROM "{table}" WHERE id IN ({", ".join("?" * len(some))})'
            for row in session.connection().exec_driver_sql(query, tuple(some)).mappings():
                found[table, row["id"]] = json.dumps(dict(row), ensure_ascii=False)
    return found


class Journal:
    """Listens to a session: reads a row before its first change, and all of them again at the end."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._before: dict[Key, str | None] = {}
        event.listen(session, "before_flush", self._note_old)
        event.listen(session, "after_flush", self._note_new)

    def _note_old(self, session: Session, *_: Any) -> None:
        keys = self._not_kept([*session.dirty, *session.deleted])
        images = stored_rows(session, keys)
        self._before |= {key: images.get(key) for key in keys}

    def _note_new(self, session: Session, *_: Any) -> None:
        self._before |= dict.fromkeys(self._not_kept(session.new))

    def _not_kept(self, rows: Iterable[Any]) -> list[Key]:
        """Keys of those that are journalled and not known yet."""
        keys = [(str(row.__tablename__), row.id) for row in rows]
        return [key for key in keys if key[0] not in JOURNAL_TABLES and key not in self._before]

    def entries(self) -> list[Entry]:
        """Every row that differs now from what it was."""
        after = stored_rows(self._session, self._before)
        images = [(*key, before, after.get(key)) for key, before in self._before.items()]
        return [image for image in images if image[2] != image[3]]

    def write(self, group: JournalGroup, entries: list[Entry]) -> int:
        """Add the group with its entries to the session; returns the group's id."""
        self._session.add(group)
        self._session.flush()
        assert group.id is not None
        insert = "INSERT INTO journal_entry (group_id, table_name, row_id, before, after) VALUES (?, ?, ?, ?, ?)"
        self._session.connection().exec_driver_sql(insert, [(group.id, *entry) for entry in entries])
        return group.id
