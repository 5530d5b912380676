"""Which columns a line of a given width shows, how wide, and what of that each row needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.cells import Align, width_of
from buildlog.screens.widgets.rows import Column, GridRow, Hint, Painted
from buildlog.screens.widgets.tones import SIGNS, Tone

GAP = 2
SIGN_WIDTH = 2
"""Cells that the sign of a tone takes before a text."""


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


def width_in_cells(cell: Painted) -> int:
    """What a cell takes to be shown whole."""
    text = cell.words()
    signed = getattr(cell, "tone", Tone.PLAIN) in SIGNS and getattr(cell, "sign", None) is None
    return width_of(text) + (SIGN_WIDTH if text else 1) * signed


def snug(column: Column, index: int, rows: Sequence[GridRow]) -> Column:
    """The column no wider than its title and its widest cell in these rows; a cell that many share counts once."""
    of_rows = (row.cells[index] for row in rows if row.hint is not Hint.GROUP and index < len(row.cells))
    cells = {id(cell): cell for cell in of_rows}.values()
    widest = max(1, width_of(column.title), max(map(width_in_cells, cells), default=1))
    return replace(column, width=min(column.width or widest, widest))


def spilling(row: GridRow, placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """The columns as this row needs them: a text that is longer than its column goes on into what follows it.

    That is all of it where nothing stands there, else what a text at the right end of the next column leaves free.
    """
    ends = list(placed)
    while len(ends) > 1 and not _width(row, ends[-1]):
        last = ends.pop()
        if ends[-1].column.align is not Align.LEFT:
            return placed
        ends[-1] = replace(ends[-1], width=ends[-1].width + GAP + last.width)
    for here in range(len(ends) - 1):
        spot, after = ends[here], ends[here + 1]
        lacks = 0 if spot.column.align is not Align.LEFT else _width(row, spot) - spot.width
        if lacks > 0 and after.column.align is Align.RIGHT:
            lent = min(lacks, max(0, after.width - _width(row, after)))
            ends[here] = replace(spot, width=spot.width + lent)
            ends[here + 1] = replace(after, width=after.width - lent)
    return tuple(ends)


def _width(row: GridRow, spot: Placed) -> int:
    return width_in_cells(row.cells[spot.index]) if spot.index < len(row.cells) else 0
