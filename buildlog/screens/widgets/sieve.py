"""Which rows of a tree are seen: those found, with the rows above them, or those not folded away."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence

from buildlog.screens.widgets.rows import GridRow


def found(rows: Sequence[GridRow], matches: Callable[[GridRow], bool]) -> tuple[GridRow, ...]:
    """The rows that match, each under the chain of rows above it, in their order."""
    seen: list[GridRow] = []
    above: list[GridRow] = []
    for row in rows:
        while above and above[-1].level >= row.level:
            above.pop()
        if row.level >= 0 and matches(row):
            seen.extend(above)
            above.clear()
            seen.append(row)
        else:
            above.append(row)
    return tuple(seen)


def unfolded(rows: Sequence[GridRow], folded: Collection[str]) -> tuple[GridRow, ...]:
    """The rows without those beneath a folded one."""
    seen: list[GridRow] = []
    hidden_beneath: int | None = None
    for row in rows:
        if hidden_beneath is not None and row.level > hidden_beneath:
            continue
        hidden_beneath = row.level if row.key in folded else None
        seen.append(row)
    return tuple(seen)


def has_beneath(rows: Sequence[GridRow], index: int) -> bool:
    """Whether the next row hangs under this one."""
    return index + 1 < len(rows) and rows[index + 1].level > rows[index].level


def above(rows: Sequence[GridRow], index: int) -> int | None:
    """Index of the nearest row above this one in the tree."""
    return next((i for i in range(index - 1, -1, -1) if rows[i].level < rows[index].level), None)
