"""The journal of a session: every row it writes, as stored before and after, re-read by primary key."""

import json
from typing import Any

from sqlalchemy import event
from sqlmodel import Session

from buildlog.record.tables import JOURNAL_TABLES, Row
from buildlog.record.tables.journal import JournalEntry, JournalGroup

Key = tuple[str, int]


def stored_row(session: Session, table: str, row_id: int) -> str | None:
    """The row as it stands in the file, as JSON; None where there is none."""
    cursor = session.connection().exec_driver_sql(f'SELECT * FROM "{table}" WHERE id = ?', (row_id,))
    row = cursor.mappings().first()
    return None if row is None else json.dumps(dict(row), ensure_ascii=False)


class Journal:
    """Listens to a session: reads a row before its first change, and all of them again at the end."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._before: dict[Key, str | None] = {}
        event.listen(session, "before_flush", self._note_old)
        event.listen(session, "after_flush", self._note_new)

    def _note_old(self, session: Session, *_: Any) -> None:
        for row in [*session.dirty, *session.deleted]:
            self._keep(row, lambda key: stored_row(session, *key))

    def _note_new(self, session: Session, *_: Any) -> None:
        for row in session.new:
            self._keep(row, lambda _key: None)

    def _keep(self, row: Any, image: Any) -> None:
        assert isinstance(row, Row)
        table = str(row.__tablename__)
        if table not in JOURNAL_TABLES and row.id is not None and (table, row.id) not in self._before:
            self._before[table, row.id] = image((table, row.id))

    def entries(self) -> list[tuple[str, int, str | None, str | None]]:
        """(table, row id, before, after) of every row that differs now from what it was."""
        images = [
            (table, row_id, before, stored_row(self._session, table, row_id))
            for (table, row_id), before in self._before.items()
        ]
        return [image for image in images if image[2] != image[3]]

    def write(self, group: JournalGroup) -> int:
        """Add the group with its entries to the session; returns the group's id."""
        entries = self.entries()
        self._session.add(group)
        self._session.flush()
        assert group.id is not None
        for table, row_id, before, after in entries:
            entry = JournalEntry(
                group_id=group.id, table_name=table, row_id=row_id, before=before, after=after
            )
            self._session.add(entry)
        self._session.flush()
        return group.id
