"""What one unit of work knows of the record, so that it reads nothing twice and writes at few moments.

A form with a hundred rows, or a whole file, looks the same parts, positions and slots up again and again. Rows stay
in memory as long as the session does. Rows asked for by equal columns are kept under these columns, and every row
that the work writes goes to where it then belongs; other comparisons are made here, on the rows found so. A small
table that is asked for again and again is read whole. What was written goes to the file when a question goes there.
"""

from typing import Any

from sqlalchemy import event
from sqlmodel import Session, col, select

from buildlog.record.conditions import Compared, holds, parted

SMALL = 64
"""Our choice: a table with no more ids is read whole by the first question."""
OFTEN, LARGE = 8, 2000
"""Our choice: after so many questions it pays to read a table whole, unless it has more ids than that."""


class _Kept:
    """Rows of one table by their values in some columns."""

    def __init__(self, columns: tuple[str, ...]) -> None:
        self.columns = columns
        self.rows: dict[tuple[Any, ...], dict[int, Any]] = {}
        self._home: dict[int, tuple[Any, ...]] = {}

    def keep(self, values: tuple[Any, ...], rows: list[Any]) -> None:
        self.rows[values] = {row.id: row for row in rows}
        self._home.update(dict.fromkeys(self.rows[values], values))

    def wrote(self, row: Any, is_gone: bool, is_whole: bool) -> None:
        """The row now belongs where its values say; of a whole table every row is kept somewhere."""
        before = self._home.pop(row.id, None)
        if before is not None:
            del self.rows[before][row.id]
        values = tuple(getattr(row, column) for column in self.columns)
        if (is_whole or values in self.rows) and not is_gone:
            self.rows.setdefault(values, {})[row.id] = row
            self._home[row.id] = values


class _Known:
    """What is known of one table."""

    def __init__(self) -> None:
        self.rows: dict[int, Any] = {}
        self.kept: dict[tuple[str, ...], _Kept] = {}
        self.last_id: int | None = None
        self.questions = 0
        self.is_whole = False
        self.is_unwritten = False

    def by(self, columns: tuple[str, ...]) -> _Kept:
        if columns not in self.kept:
            self.kept[columns] = _Kept(columns)
            for row_id in sorted(self.rows) if self.is_whole else ():
                self.kept[columns].wrote(self.rows[row_id], False, True)
        return self.kept[columns]

    def wrote(self, row: Any, is_gone: bool = False) -> None:
        self.is_unwritten = True
        if is_gone:
            self.rows.pop(row.id, None)
        else:
            self.rows[row.id] = row
        for kept in self.kept.values():
            kept.wrote(row, is_gone, self.is_whole)


class Reads:
    """Rows known in a session, by table; the work tells what it writes, the session what it loads."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._known: dict[str, _Known] = {}
        event.listen(session, "loaded_as_persistent", self._hold)
        event.listen(session, "after_flush", self._note_written)
        event.listen(session, "after_soft_rollback", self._forget)

    def rows(self, table: type[Any], where: tuple[Any, ...], equal: dict[str, Any], order: Any) -> list[Any]:
        """The rows whose columns are ``equal`` and for which the conditions hold, in order of a column."""
        known = self._of(table)
        order_column = "id" if order is None else getattr(order, "key", None)
        others: list[Compared] = []
        if where:
            found_equal, others, is_plain = parted(where, known.is_whole)
            if not is_plain:
                return self._ask(table, where, equal, order)
            equal = {**equal, **found_equal}
        if order_column is None or (others and not equal and not known.is_whole):
            return self._ask(table, where, equal, order)
        columns, values = tuple(equal), tuple(equal.values())
        kept = known.by(columns)
        if values not in kept.rows and not known.is_whole:
            self._look_up(table, known, kept, values)
            kept = known.by(columns)
        found = kept.rows.get(values)
        if not found:
            return []
        rows = [found[row_id] for row_id in sorted(found)]
        if others:
            rows = [row for row in rows if all(holds(row, compared) for compared in others)]
        return rows if order_column == "id" else sorted(rows, key=lambda row: _place(row, order_column))

    def row(self, table: type[Any], row_id: int | None) -> Any:
        """The row of that id; None where there is none."""
        known = self._of(table)
        if row_id not in known.rows and row_id is not None and not known.is_whole:
            return self._session.get(table, row_id)
        return known.rows.get(row_id or 0)

    def added(self, row: Any) -> None:
        """A new row gets its id at once, and goes to the file later."""
        known = self._of(type(row))
        if row.id is None:
            row.id = known.last_id = self._last_id(type(row)) + 1
        known.wrote(row)

    def changed(self, row: Any, is_gone: bool = False) -> None:
        self._of(type(row)).wrote(row, is_gone)

    def _of(self, table: type[Any]) -> _Known:
        name = str(table.__tablename__)
        if name not in self._known:
            self._known[name] = _Known()
        return self._known[name]

    def _look_up(self, table: type[Any], known: _Known, kept: _Kept, values: tuple[Any, ...]) -> None:
        known.questions += 1
        if known.questions in (1, OFTEN) and self._last_id(table) <= (SMALL if known.questions == 1 else LARGE):
            self._ask(table, (), {}, None)
            known.is_whole = True
            known.kept.clear()
        else:
            kept.keep(values, self._ask(table, (), dict(zip(kept.columns, values, strict=True)), None))

    def _ask(self, table: type[Any], where: tuple[Any, ...], equal: dict[str, Any], order: Any) -> list[Any]:
        if self._of(table).is_unwritten:
            self._session.flush()
        conditions = [col(getattr(table, name)) == value for name, value in equal.items()]
        query = select(table).where(*conditions, *where).order_by(col(table.id) if order is None else order)
        return list(self._session.exec(query).all())

    def _last_id(self, table: type[Any]) -> int:
        """The highest id that was ever given in a table; ids are never used again."""
        known, name = self._of(table), str(table.__tablename__)
        if known.last_id is None:
            query = f"""SELECT max(coalesce((SELECT seq FROM sqlite_sequence WHERE name = ?), 0),
                                   coalesce((SELECT max(id) FROM "{name}"), 0))"""
            known.last_id = int(self._session.connection().exec_driver_sql(query, (name,)).scalar_one())
        return known.last_id

    def _hold(self, _session: Session, row: Any) -> None:
        """The session by itself holds a row only as long as somebody else does."""
        self._of(type(row)).rows[row.id] = row

    def _forget(self, *_: Any) -> None:
        """A part of the work was taken back: what it wrote is not there any more."""
        self._known.clear()

    def _note_written(self, *_: Any) -> None:
        for known in self._known.values():
            known.is_unwritten = False


def _place(row: Any, order_column: str) -> tuple[Any, ...]:
    """Where NULL comes first, as in SQLite, and equal ones in order of id."""
    value = getattr(row, order_column)
    return (value is not None, value, row.id) if value is not None else (False, row.id)
