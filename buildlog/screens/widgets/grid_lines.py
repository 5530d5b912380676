"""The single lines of a grid: heading, row, filter, empty. Each is a Strip of exactly the width asked for.

Before every row stand two cells: where the cursor is (`▌` with the focus,
`▏` without) and whether it is marked (`•`).
"""

from __future__ import annotations

from dataclasses import replace

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widget import Widget

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.cells import Align, fit
from buildlog.screens.widgets.columns import GAP, Placed
from buildlog.screens.widgets.grid_view import GridView
from buildlog.screens.widgets.rows import GridRow, Hint
from buildlog.screens.widgets.tones import Brush, Tone, brush_for

GUTTER = 2
STRUCK = Style(strike=True)
CURSOR_SIGN, BLURRED_SIGN, MARK_SIGN = "▌", "▏", "•"
FOLDED_SIGN, UNFOLDED_SIGN, LEAF_SIGN = "▸ ", "▾ ", "  "


@frozen
class LineLook:
    """The styles of a grid in the theme of the moment."""

    brush: Brush
    header: Style
    cursor: Style
    marked: Style
    group: Style
    focused: bool

    @classmethod
    def of(cls, grid: Widget, group_tone: Tone) -> LineLook:
        brush, focused, colours = brush_for(grid), grid.has_focus, grid.app.theme_variables
        here = Style(color=colours["tone-strong"], bgcolor=colours["ground-cursor"])
        return cls(
            brush,
            header=brush.of(Tone.ACCENT if focused else Tone.FAINT) + Style(underline=True),
            cursor=brush.base + (here if focused else Style(bgcolor=colours["ground-cursor-blurred"])),
            marked=brush.base + Style(bgcolor=colours["panel"]),
            group=brush.of(group_tone) + Style(bold=True),
            focused=focused,
        )


def header_line(placed: tuple[Placed, ...], width: int, look: LineLook) -> Strip:
    brush = look.brush.on(look.header)
    parts = [Segment(" " * GUTTER, look.header)]
    for n, spot in enumerate(placed):
        if n:
            parts.append(Segment(" " * GAP, look.header))
        if spot.column.heading is not None:
            parts += spot.column.heading.paint(spot.width, spot.column.align, brush)
        else:
            parts.append(Segment(fit(spot.column.title, spot.width, spot.column.align), look.header))
    return Strip(parts).adjust_cell_length(width, look.header).simplify()


def row_line(view: GridView, line: int, placed: tuple[Placed, ...], width: int, look: LineLook) -> Strip:
    row = view.shown[line]
    here, marked = line == view.cursor, view.is_marked(row.key)
    base = look.brush.base
    if row.hint is Hint.GROUP:
        base = look.group
    elif here:
        base = look.cursor
    elif marked:
        base = look.marked
    brush = look.brush.on(base, row.depth, view.folded(row))
    cursor_sign = (CURSOR_SIGN if look.focused else BLURRED_SIGN) if here else " "
    parts = [
        Segment(cursor_sign, brush.of(Tone.ACCENT)),
        Segment(MARK_SIGN if marked else " ", brush.of(Tone.ACCENT)),
    ]
    if row.hint is Hint.GROUP:
        parts += row.cells[0].paint(max(0, width - GUTTER), Align.LEFT, brush)
    else:
        parts += _cells(row, placed, brush)
    return Strip(parts).adjust_cell_length(width, base).simplify()


def _cells(row: GridRow, placed: tuple[Placed, ...], brush: Brush) -> list[Segment]:
    parts: list[Segment] = []
    if row.hint is Hint.PAST:
        brush = replace(brush, tones=dict.fromkeys(Tone, brush.tones.get(Tone.FAINT, Style.null()) + STRUCK))
    for n, spot in enumerate(spilling(row, placed)):
        if n:
            parts.append(Segment(" " * GAP, brush.base))
        room = spot.width
        if spot.column.tree:
            lead = tree_lead(brush, room // 2)
            parts.append(Segment(lead, brush.of(Tone.FAINT)))
            room -= len(lead)
        if spot.index < len(row.cells):
            parts += row.cells[spot.index].paint(room, spot.column.align, brush)
        else:
            parts.append(Segment(" " * room, brush.base))
    return parts


def spilling(row: GridRow, placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Where nothing follows a text, it takes the room of the empty cells after it."""
    if not placed:
        return placed
    last = len(placed) - 1
    while last > 0 and not (placed[last].index < len(row.cells) and row.cells[placed[last].index].words()):
        last -= 1
    spot = placed[last]
    if last == len(placed) - 1 or spot.column.align is not Align.LEFT or spot.index >= len(row.cells):
        return placed
    return *placed[:last], replace(spot, width=sum(p.width + GAP for p in placed[last:]) - GAP)


def tree_lead(brush: Brush, at_most: int) -> str:
    """Indent and fold sign of a row in a tree, never more than `at_most` cells."""
    sign = LEAF_SIGN if brush.folded is None else FOLDED_SIGN if brush.folded else UNFOLDED_SIGN
    return ("  " * brush.depth)[: max(0, at_most - 2)] + sign[:at_most]


def filter_line(view: GridView, asking: bool, width: int, look: LineLook) -> Strip:
    text = f" / {view.filter_text}" + ("▏" if asking else "")
    count = f"{view.count} shown · {'enter keeps · ' if asking else ''}esc shows all "
    room = max(0, width - len(count))
    if room < 12:
        room, count = width, ""
    style = look.brush.on(look.header).of(Tone.ACCENT)
    parts = [Segment(fit(text, room), style), Segment(count, look.header)]
    return Strip(parts).adjust_cell_length(width, look.header)
