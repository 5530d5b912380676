"""A burn-down in braille: what was, what is to come, its band, and the day to order by.

    chart = Chart(empty="No scale reading yet: weigh the spool with w.", id="burn-down")
    chart.show(ChartData(
        title="Amber PLA",
        curves=(Curve("as it was", …), Curve("at this pace", …, Stroke.DOTTED)),
        band=…, levels=(Level("safety", 200),), uprights=(Upright("order by 12 Nov", 41),),
        x_labels=…, unit="g",
    ))

Strips are built line by line when drawn, since only then the size is known.
"""

from __future__ import annotations

from textual.strip import Strip
from textual.widget import Widget

from buildlog.screens.own_keys import own_keys, with_keys
from buildlog.screens.widgets.chart_data import ChartData
from buildlog.screens.widgets.chart_lines import LEAST_PLOT, LINES_AROUND, Plot
from buildlog.screens.widgets.span_line import empty_line
from buildlog.screens.widgets.tones import Brush, brush_for

# Fewer lines than these leave no room for a picture; the title stays.
LEAST_HEIGHT = LINES_AROUND + LEAST_PLOT
LEAST_WIDTH = 24


class Chart(Widget):
    """Draws one ChartData at whatever size it is given; a sentence where there is none."""

    COMPONENT_CLASSES = {"chart--band"}

    def __init__(self, *, empty: str = "Nothing to draw yet.", id: str | None = None) -> None:
        super().__init__(id=id)
        self._empty = empty
        self._data: ChartData | None = None
        self._plot: tuple[tuple[int, int], Plot] | None = None
        self._brush: Brush | None = None

    @property
    def brush(self) -> Brush:
        """Kept until the styles change, as in a list: one for every line would be half of a repaint."""
        if self._brush is None:
            self._brush = brush_for(self)
        return self._brush

    def notify_style_update(self) -> None:
        """Another theme has other tones, also where no rule of this widget differs."""
        self._brush = None
        super().notify_style_update()
        self.refresh()

    def show(self, data: ChartData | None) -> None:
        """Draw this instead; None for the sentence that leads in."""
        self._data, self._plot = data, None
        self.refresh()

    def render_line(self, y: int) -> Strip:
        width, height = self.size
        brush = self.brush
        data = self._data
        if data is None or data.is_empty:
            return empty_line(with_keys(self._empty, own_keys(self.app)), y, width, brush)
        if width < LEAST_WIDTH or height < LEAST_HEIGHT:
            return empty_line(f"{data.title}: too little room for a picture", y + 1, width, brush)
        plot = self._laid_out(data)
        band = self.get_component_rich_style("chart--band")
        if y == 0:
            parts = plot.title_line(brush, band)
        elif y == 1:
            parts = plot.flags_line(brush)
        elif y < 2 + plot.rows:
            parts = plot.plot_line(y - 2, brush, band)
        else:
            parts = plot.foot_line(brush) if y == 2 + plot.rows else plot.dates_line(brush)
        return Strip(parts).adjust_cell_length(width, brush.base).simplify()

    def _laid_out(self, data: ChartData) -> Plot:
        size = (self.size.width, self.size.height)
        if self._plot is None or self._plot[0] != size:
            self._plot = (size, Plot.of(data, *size))
        return self._plot[1]
