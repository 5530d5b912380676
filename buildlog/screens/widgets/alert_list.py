"""Alerts as rows that fold beyond five: the last line tells of more, and unfolds them by its key."""

from __future__ import annotations

from collections.abc import Sequence

from buildlog.screens.widgets.rows import Cell, GridRow
from buildlog.screens.widgets.tones import Tone

FOLDED_AT = 5
MORE_KEY = "alerts:more"


def folded(rows: Sequence[GridRow], all_of_them: bool) -> list[GridRow]:
    """The rows with a last line that tells of more; rows of several cells are told so in the second."""
    beyond = len(rows) - FOLDED_AT
    if beyond <= 0:
        return list(rows)
    told = Cell("fold again" if all_of_them else f"… and {beyond} more", Tone.FAINT)
    before = (Cell(""),) if len(rows[0].cells) > 1 else ()
    return [*(rows if all_of_them else rows[:FOLDED_AT]), GridRow(MORE_KEY, (*before, told))]
