"""What one unit of work has read, so that it reads nothing twice.

A form with a hundred rows, or a whole file, looks the same parts, positions and slots up again and again. Rows stay
in memory as long as the session does. Rows asked for by equal columns are kept under these columns, and every row
that the session writes goes to where it then belongs; other comparisons are made here, on the rows found so.
"""

import operator
from collections.abc import Callable
from typing import Any

from sqlalchemy import BinaryExpression, BindParameter, Null, event
from sqlalchemy.sql import operators
from sqlmodel import Session

Test = Callable[[Any, Any], bool]
Compared = tuple[str, Test, Any]

_ORDERED: dict[Any, Test] = {
    operators.lt: operator.lt,
    operators.le: operator.le,
    operators.gt: operator.gt,
    operators.ge: operator.ge,
    operators.ne: operator.ne,
}


FEW = 16
"""Our choice: kinds and states are so few; longer lists are for SQL to look through."""


def _is_one_of(found: Any, values: Any) -> bool:
    return found in values


class _Kept:
    """Rows of one table by their values in some columns."""

    def __init__(self, columns: tuple[str, ...]) -> None:
        self._columns = columns
        self._rows: dict[tuple[Any, ...], dict[int, Any]] = {}
        self._home: dict[int, tuple[Any, ...]] = {}

    def rows(self, values: tuple[Any, ...], ask: Callable[[], list[Any]]) -> list[Any]:
        if values not in self._rows:
            self._rows[values] = {row.id: row for row in ask()}
            self._home.update(dict.fromkeys(self._rows[values], values))
        return list(self._rows[values].values())

    def wrote(self, row: Any, is_gone: bool) -> None:
        """The row now belongs where its values say."""
        before = self._home.pop(row.id, None)
        if before is not None:
            del self._rows[before][row.id]
        values = tuple(getattr(row, column) for column in self._columns)
        if values in self._rows and not is_gone:
            self._rows[values][row.id] = row
            self._home[row.id] = values


class Reads:
    """Rows read in a session, by table; the session tells what it loads and what it writes."""

    def __init__(self, session: Session) -> None:
        self._rows: list[Any] = []
        self._kept: dict[str, dict[tuple[str, ...], _Kept]] = {}
        for loaded in ("loaded_as_persistent", "pending_to_persistent"):
            event.listen(session, loaded, self._hold)
        event.listen(session, "after_flush", self._note_written)
        event.listen(session, "after_soft_rollback", self._forget)

    def rows(
        self, table: type[Any], where: tuple[Any, ...], order: Any, ask: Callable[[tuple[Any, ...]], list[Any]]
    ) -> list[Any]:
        """The rows that ``ask(where)`` gives, asked for only when they are not known."""
        equal, others, plain = _parted(where)
        order_column = getattr(order, "key", None)
        if not plain or order_column is None or (where and not equal):
            return ask(where)
        columns = tuple(sorted(equal))
        kept = self._kept.setdefault(str(table.__tablename__), {}).setdefault(columns, _Kept(columns))
        values = tuple(equal[column][0] for column in columns)
        found = kept.rows(values, lambda: ask(tuple(part for _, part in equal.values())))
        found = [row for row in found if all(_holds(row, compared) for compared in others)]
        return sorted(found, key=lambda row: _place(row, order_column))

    def _hold(self, _session: Session, row: Any) -> None:
        """The session by itself holds a row only as long as somebody else does."""
        self._rows.append(row)

    def _forget(self, *_: Any) -> None:
        """A part of the work was taken back: what it wrote is not there any more."""
        self._kept.clear()

    def _note_written(self, session: Session, *_: Any) -> None:
        written = [(row, False) for row in [*session.new, *session.dirty]] + [(row, True) for row in session.deleted]
        for row, is_gone in written:
            for kept in self._kept.get(str(row.__tablename__), {}).values():
                kept.wrote(row, is_gone)


def _parted(where: tuple[Any, ...]) -> tuple[dict[str, tuple[Any, Any]], list[Compared], bool]:
    """Equal columns with value and condition, other comparisons, and whether that is all of the conditions."""
    equal: dict[str, tuple[Any, Any]] = {}
    others: list[Compared] = []
    for part in where:
        column = getattr(getattr(part, "left", None), "key", None)
        if not isinstance(part, BinaryExpression) or column is None:
            return equal, others, False
        compared: Any = part.operator
        value: Any = part.right.value if isinstance(part.right, BindParameter) else None
        if isinstance(part.right, Null) and compared is operators.is_not:
            others.append((column, operator.ne, None))
        elif isinstance(part.right, Null) and compared is operators.is_ and column not in equal:
            equal[column] = (None, part)
        elif value is None:
            return equal, others, False
        elif compared is operators.eq and column not in equal:
            equal[column] = (value, part)
        elif compared in _ORDERED:
            others.append((column, _ORDERED[compared], value))
        elif compared is operators.in_op and len(value) <= FEW:
            others.append((column, _is_one_of, value))
        else:
            return equal, others, False
    return equal, others, True


def _holds(row: Any, compared: Compared) -> bool:
    """As SQL compares: nothing holds of NULL but being NULL or not."""
    column, test, value = compared
    found = getattr(row, column)
    return found is not None and (value is None or test(found, value))


def _place(row: Any, order_column: str) -> tuple[Any, ...]:
    """Where NULL comes first, as in SQLite, and equal ones in order of id."""
    value = getattr(row, order_column)
    return (value is not None, value, row.id) if value is not None else (False, row.id)
