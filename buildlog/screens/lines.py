"""Lines of three cells that Today and Prints are made of: which thing, what of it, when or how much."""

from __future__ import annotations

from collections.abc import Sequence

from buildlog.screens.widgets.cells import Align
from buildlog.screens.widgets.rows import Cell, Column, GridRow, Painted, group_row
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import soon as soon  # said on these lines, and by the status

COLUMNS = (
    Column("thing", width=14, snug=True),
    Column("what", least=20),
    Column("when", width=24, align=Align.RIGHT, priority=1, snug=True),
)
NARROW = (*COLUMNS[:2], Column("when", width=12, align=Align.RIGHT, priority=1, snug=True))
"""For lists side by side."""
BETWEEN = " · "
NOTHING = Cell("")


def line(key: str, thing: str | Painted, what: str | Painted, when: str | Painted = "") -> GridRow:
    """A row; texts become plain cells."""
    return GridRow(key, (_cell(thing), _cell(what), _cell(when)))


def _cell(told: str | Painted) -> Painted:
    return told if not isinstance(told, str) else Cell(told) if told else NOTHING


def none(key: str, text: str) -> GridRow:
    """A line that says that there is nothing, and why."""
    return line(f"{key}:none", "", Cell(text, Tone.FAINT))


def section(key: str, title: str, rows: Sequence[GridRow]) -> list[GridRow]:
    """Rows under a heading; no heading over nothing."""
    return [group_row(f"section:{key}", title), *rows] if rows else []
