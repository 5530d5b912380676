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
from buildlog.screens.widgets.columns import GAP, Placed, spilling, width_in_cells
from buildlog.screens.widgets.grid_view import GridView
from buildlog.screens.widgets.rows import GridRow, Hint, Painted
from buildlog.screens.widgets.tones import Brush, Tone, brush_for

GUTTER = 2
STRUCK = Style(strike=True)
CURSOR_SIGN, BLURRED_SIGN, MARK_SIGN = "▌", "▏", "•"
RULE_SIGN = "─"
FOLDED_SIGN, UNFOLDED_SIGN, LEAF_SIGN = "▸ ", "▾ ", "  "


@frozen
class LineLook:
    """The styles of a grid in the theme of the moment."""

    brush: Brush
    header: Style
    cursor: Style
    marked: Style
    group: Style
    rule: Style | None
    focused: bool

    @classmethod
    def of(cls, grid: Widget, parted: bool) -> LineLook:
        brush, focused, colours = brush_for(grid), grid.has_focus, grid.app.theme_variables
        here = Style(color=colours["tone-strong"], bgcolor=colours["ground-cursor"])
        return cls(
            brush,
            header=brush.of(Tone.ACCENT if focused else Tone.FAINT) + Style(underline=True),
            cursor=brush.base + (here if focused else Style(bgcolor=colours["ground-cursor-blurred"])),
            marked=brush.base + Style(bgcolor=colours["panel"]),
            group=brush.of(Tone.STRONG) + Style(bold=True),
            rule=brush.base + Style(color=colours["rule"]) if parted else None,
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
        parts += _heading(row.cells[0], max(0, width - GUTTER), brush, look.rule)
    else:
        parts += _cells(row, placed, brush)
    return Strip(parts).adjust_cell_length(width, base).simplify()


def _heading(cell: Painted, width: int, brush: Brush, rule: Style | None) -> list[Segment]:
    """The text of a heading, and after it a rule to the end of the line where there is to be one."""
    taken = min(width, width_in_cells(cell) + 1)
    if rule is None or taken == width:
        return list(cell.paint(width, Align.LEFT, brush))
    return [*cell.paint(taken, Align.LEFT, brush), Segment(RULE_SIGN * (width - taken), rule)]


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
