"""A ChartData laid out in cells: title with legend, flags, plot with its axis, dates."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.cells import Align, clean, fit, width_of
from buildlog.screens.widgets.chart_data import ChartData, Curve, Upright, round_steps
from buildlog.screens.widgets.dots import ACROSS, DOWN, Canvas, glyph
from buildlog.screens.widgets.tones import Brush, Tone

AXIS, TICK, FOOT, CORNER, FOOT_TICK = "│", "┤", "─", "└", "┴"
LEVEL_DASH, UPRIGHT, FLAG = "╌", "┊", "▾"
LINES_AROUND = 4  # title, flags, foot, dates
LEAST_PLOT = 3
GUTTER_AT_MOST = 14
LEGENDS = ((True, True, 3), (True, True, 2), (True, True, 1), (False, True, 1), (True, False, 1), (False, False, 1))
"""Ways to write it, the fullest first: with its title, with the band, so many cells apart."""
FLAGS_AT_MOST = 4  # more would hide the plot behind lines


@frozen
class Plot:
    """The picture at one size: `rows` lines of plot, `gutter` cells of axis before them."""

    data: ChartData
    width: int
    rows: int
    gutter: int
    ticks: dict[int, tuple[str, Tone]]
    canvases: tuple[tuple[Curve, Canvas], ...]
    band_rows: tuple[range, ...]
    levels: dict[int, Tone]
    uprights: dict[int, Tone]

    @classmethod
    def of(cls, data: ChartData, width: int, height: int) -> Plot:
        rows = max(LEAST_PLOT, height - LINES_AROUND)
        ticks = _ticks(data, rows)
        gutter = min(GUTTER_AT_MOST, max(width_of(text) for text, _ in ticks.values()) + 1)
        inner = max(1, width - gutter - 1)
        canvases = tuple((curve, _drawn(data, curve, inner, rows)) for curve in data.curves)
        return cls(
            data,
            width,
            rows,
            gutter,
            ticks,
            canvases,
            band_rows=_band_rows(data, inner, rows),
            levels={_row(data, level.y, rows): level.tone for level in data.levels if level.y},
            uprights={_column(data, mark.x, inner): mark.tone for mark in data.uprights},
        )

    @property
    def inner(self) -> int:
        return max(1, self.width - self.gutter - 1)

    def column(self, x: float) -> int:
        return _column(self.data, x, self.inner)

    def title_line(self, brush: Brush, band: Style) -> list[Segment]:
        """Title and legend; where the line is too short for all, the title goes first: the list tells it too."""
        parts: list[Segment] = []
        for way in LEGENDS:
            parts = self._legend(brush, band, *way)
            if sum(width_of(part.text) for part in parts) <= self.width:
                break
        return list(Strip(parts).adjust_cell_length(self.width, brush.base))

    def _legend(self, brush: Brush, band: Style, title: bool, ground: bool, apart: int) -> list[Segment]:
        entries = [[Segment(clean(self.data.title), brush.of(Tone.STRONG))]] if title else []
        for curve in self.data.curves:
            label = Segment(f" {clean(curve.label)}", brush.of(Tone.FAINT))
            entries.append([Segment(curve.stroke.sample, brush.of(curve.tone)), label])
        if ground and self.data.band and self.data.band_label:
            label = Segment(f" {clean(self.data.band_label)}", brush.of(Tone.FAINT))
            entries.append([Segment("  ", brush.base + band), label])
        gap = Segment(" " * apart, brush.base)
        return [part for entry in entries for part in (gap, *entry)][1:]

    def flags_line(self, brush: Brush) -> list[Segment]:
        """The labels of the vertical lines, each at its line, on the sides that leave room for the most."""
        marks = [(self.gutter + 1 + self.column(mark.x), mark) for mark in self.data.uprights[:FLAGS_AT_MOST]]
        sides = itertools.product((True, False), repeat=len(marks))
        line = max((self._flags(marks, chosen) for chosen in sides), key=lambda flags: len(flags))
        toned = [line.get(cell, (" ", Tone.PLAIN)) for cell in range(self.width)]
        return [Segment(text, brush.of(tone)) for text, tone in toned]

    def _flags(self, marks: Sequence[tuple[int, Upright]], onward: Sequence[bool]) -> dict[int, tuple[str, Tone]]:
        """Texts and tones by cell; a label that would touch another or leave the line is left out."""
        cells: dict[int, tuple[str, Tone]] = {}
        for (at, mark), right in zip(marks, onward, strict=True):
            text = clean(mark.label)
            label = f"{FLAG} {text}" if right else f"{text} {FLAG}"
            start = at if right else at + 1 - width_of(label)
            taken = range(start - 1, start + width_of(label) + 1)
            if start < 0 or start + width_of(label) > self.width or any(cell in cells for cell in taken):
                continue
            cells |= dict.fromkeys(taken[1:-1], ("", mark.tone))
            cells[start] = (label, mark.tone)
        return cells

    def plot_line(self, row: int, brush: Brush, band: Style) -> list[Segment]:
        label, tone = self.ticks.get(row, ("", Tone.FAINT))
        parts = [
            Segment(fit(label, self.gutter - 1, Align.RIGHT) + " ", brush.of(tone)),
            Segment(TICK if label else AXIS, brush.of(Tone.FAINT)),
        ]
        marks = [self._mark(column, row) for column in range(self.inner)]
        behind = [brush, brush.on(brush.base + band)]
        cells = zip(marks, [row in rows for rows in self.band_rows], strict=True)
        for (tone, ground), alike in itertools.groupby(cells, lambda cell: (cell[0][1], cell[1])):
            parts.append(Segment("".join(mark[0] for mark, _ in alike), behind[ground].of(tone)))
        return parts

    def _mark(self, column: int, row: int) -> tuple[str, Tone]:
        """What stands in a cell of the plot: dots go before vertical lines, those before levels."""
        bits, tone = 0, Tone.PLAIN
        for curve, canvas in self.canvases:
            if own := canvas.bits(column, row):
                bits, tone = bits | own, curve.tone
        if bits:
            return glyph(bits), tone
        if column in self.uprights:
            return UPRIGHT, self.uprights[column]
        if row in self.levels:
            return LEVEL_DASH, self.levels[row]
        return " ", tone

    def foot_line(self, brush: Brush) -> list[Segment]:
        marks = {self.column(x) for _, x in self.data.x_labels}
        line = "".join(FOOT_TICK if column in marks else FOOT for column in range(self.inner))
        return [Segment(" " * self.gutter + CORNER + line, brush.of(Tone.FAINT))]

    def dates_line(self, brush: Brush) -> list[Segment]:
        """Labels of x, centred on their tick; one that would touch the one before is left out."""
        line, free = "", 0
        for raw, x in sorted(self.data.x_labels, key=lambda pair: pair[1]):
            text = clean(raw)
            start = self.gutter + 1 + self.column(x) - width_of(text) // 2
            start = max(0, min(start, self.width - width_of(text)))
            if start >= free:
                line += " " * (start - width_of(line)) + text
                free = width_of(line) + 2
        return [Segment(fit(line, self.width), brush.of(Tone.FAINT))]


def _row(data: ChartData, y: float, rows: int) -> int:
    low, high = data.y_range()
    return max(0, min(rows - 1, round((high - y) / (high - low) * (rows * DOWN - 1)) // DOWN))


def _column(data: ChartData, x: float, width: int) -> int:
    low, high = data.x_range()
    return round((x - low) / (high - low) * (width * ACROSS - 1)) // ACROSS


def _band_rows(data: ChartData, width: int, rows: int) -> tuple[range, ...]:
    """For each column the rows that the band covers."""
    low, high = data.x_range()
    edges = [data.band_at(low + (high - low) * (column + 0.5) / width) for column in range(width)]
    return tuple(
        range(_row(data, edge[1], rows), _row(data, edge[0], rows) + 1) if edge else range(0) for edge in edges
    )


def _ticks(data: ChartData, rows: int) -> dict[int, tuple[str, Tone]]:
    """Label and tone of the axis by row; a level's label goes before a value's."""
    low, high = data.y_range()
    ticks = {
        _row(data, value, rows): (f"{value:,.10g}".replace(",", " "), Tone.FAINT)
        for value in round_steps(low, high, max(2, rows // 3))
    }
    if data.unit:
        top = min(ticks)
        ticks[top] = (f"{ticks[top][0]} {data.unit}", Tone.FAINT)
    for level in data.levels:
        ticks[_row(data, level.y, rows)] = (level.label, level.tone)
    return ticks


def _drawn(data: ChartData, curve: Curve, width: int, rows: int) -> Canvas:
    canvas = Canvas(width, rows)
    x_low, x_high = data.x_range()
    y_low, y_high = data.y_range()
    dots = [
        (
            (x - x_low) / (x_high - x_low) * (width * ACROSS - 1),
            (y_high - y) / (y_high - y_low) * (rows * DOWN - 1),
        )
        for x, y in curve.points
    ]
    on, off = curve.stroke.value
    for (x0, y0), (x1, y1) in zip(dots, dots[1:] or dots, strict=False):
        canvas.line(x0, y0, x1, y1, on, off)
    return canvas
