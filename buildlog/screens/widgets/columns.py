"""Which columns a line of a given width shows, and how wide."""

from __future__ import annotations

from collections.abc import Sequence

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.rows import Column

GAP = 2


@frozen
class Placed:
    """A column that is shown: its index among all columns, and its width in cells."""

    index: int
    column: Column
    width: int


def lay_out(columns: Sequence[Column], width: int) -> tuple[Placed, ...]:
    """The columns that fit in `width` cells with a gap between, in their order.

    The highest priority number goes first, the last of equals; priority 0 stays, squeezed if need be.
    """
    kept = list(range(len(columns)))
    while kept and _needed(columns, kept) > width:
        dispensable = [i for i in kept if columns[i].priority > 0]
        if not dispensable:
            break
        kept.remove(max(dispensable, key=lambda i: (columns[i].priority, i)))
    widths = _shared(columns, kept, width)
    return tuple(Placed(i, columns[i], w) for i, w in zip(kept, widths, strict=True) if w > 0)


def _least(column: Column) -> int:
    return column.least if column.width is None else column.width


def _needed(columns: Sequence[Column], kept: Sequence[int]) -> int:
    return sum(_least(columns[i]) for i in kept) + GAP * (len(kept) - 1)


def _shared(columns: Sequence[Column], kept: Sequence[int], width: int) -> list[int]:
    widths = [_least(columns[i]) for i in kept]
    spare = width - _needed(columns, kept)
    shares = [columns[i].share if columns[i].width is None else 0 for i in kept]
    total = sum(shares)
    if spare > 0 and total:
        given = 0
        for n, share in enumerate(shares):
            upto = spare * sum(shares[: n + 1]) // total
            widths[n] += upto - given if share else 0
            given = upto
    while spare < 0 and any(widths):
        widest = widths.index(max(widths))
        widths[widest] -= 1
        spare += 1
    return widths
