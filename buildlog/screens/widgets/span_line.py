"""Base of the widgets that are one line of toned text; what they show follows the width they get."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from rich.segment import Segment
from textual.strip import Strip
from textual.widget import Widget

from buildlog.screens.widgets.cells import Align, fit
from buildlog.screens.widgets.spread import spread
from buildlog.screens.widgets.tones import Brush, Tone, brush_for


class SpanLine(Widget):
    """Draws `spans(width)`, cut with `…` if they are too long after all."""

    def notify_style_update(self) -> None:
        """Another theme has other tones, also where no rule of this widget differs."""
        super().notify_style_update()
        self.refresh()

    def spans(self, width: int) -> Sequence[tuple[str, Tone]]:
        """The texts of the line for so many cells."""
        raise NotImplementedError

    def render_line(self, y: int) -> Strip:
        width, brush = self.size.width, brush_for(self)
        if y:
            return Strip.blank(width, brush.base)
        parts = spread(self.spans(width), width, Align.LEFT, brush)
        return Strip(parts).adjust_cell_length(width, brush.base)


def empty_line(text: str, line: int, width: int, brush: Brush) -> Strip:
    """A line of the text that leads in, wrapped and told whole from the second line of the empty space on."""
    told = [cut for part in text.splitlines() for cut in wrap(part, max(1, width - 4))]
    shown = fit(f"  {told[line - 1]}", width) if 1 <= line <= len(told) else " " * width
    return Strip([Segment(shown, brush.of(Tone.FAINT))]).adjust_cell_length(width, brush.base)
