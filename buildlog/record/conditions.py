"""Conditions of a question, taken apart so that rows in memory can be held against them as SQL would."""

import operator
from collections.abc import Callable
from typing import Any

from sqlalchemy import BinaryExpression, BindParameter, Null
from sqlalchemy.sql import operators

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


def parted(where: tuple[Any, ...], is_whole: bool) -> tuple[dict[str, Any], list[Compared], bool]:
    """Equal columns with their values, other comparisons, and whether that is all of the conditions.

    Long lists are looked through here only when the table is known whole.
    """
    equal: dict[str, Any] = {}
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
            equal[column] = None
        elif value is None:
            return equal, others, False
        elif compared is operators.eq and column not in equal:
            equal[column] = value
        elif compared in _ORDERED:
            others.append((column, _ORDERED[compared], value))
        elif compared is operators.in_op and (is_whole or len(value) <= FEW):
            others.append((column, _is_one_of, frozenset(value)))
        else:
            return equal, others, False
    return equal, others, True


def holds(row: Any, compared: Compared) -> bool:
    """As SQL compares: nothing holds of NULL but being NULL or not."""
    column, test, value = compared
    found = getattr(row, column)
    return found is not None and (value is None or test(found, value))
