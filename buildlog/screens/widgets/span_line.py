"""Base of the widgets that are a line of toned text, or a few; what they show follows the width they get."""

from __future__ import annotations

from collections.abc import Sequence

from rich.segment import Segment
from textual.geometry import Size
from textual.strip import Strip
from textual.widget import Widget

from buildlog.screens.widgets.cells import Align, fit, wrapped
from buildlog.screens.widgets.spread import spread
from buildlog.screens.widgets.tones import Brush, Tone, brush_for

Spans = Sequence[tuple[str, Tone]]


class SpanLine(Widget):
    """Draws `spans(width)`, cut with `…` if they are too long after all.

    One whose height is `auto` overrides `lines` instead, and calls `shows_other` when they change.
    """

    def notify_style_update(self) -> None:
        """Another theme has other tones, also where no rule of this widget differs."""
        super().notify_style_update()
        self.refresh()

    def spans(self, width: int) -> Spans:
        """The texts of the line for so many cells."""
        raise NotImplementedError

    def lines(self, width: int) -> Sequence[Spans]:
        """All lines for so many cells."""
        return (self.spans(width),)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return len(self.lines(width))

    def shows_other(self) -> None:
        """Draw it anew; all is laid out anew only where that takes more lines or fewer."""
        self.refresh(layout=len(self.lines(self.size.width)) != self.size.height)

    def render_line(self, y: int) -> Strip:
        width, brush = self.size.width, brush_for(self)
        lines = self.lines(width)
        if y >= len(lines):
            return Strip.blank(width, brush.base)
        parts = spread(lines[y], width, Align.LEFT, brush)
        return Strip(parts).adjust_cell_length(width, brush.base)


def empty_line(text: str, line: int, width: int, brush: Brush) -> Strip:
    """A line of the text that leads in, wrapped and told whole from the second line of the empty space on."""
    told = [cut for part in text.splitlines() for cut in wrapped(part, max(1, width - 4))]
    shown = fit(f"  {told[line - 1]}", width) if 1 <= line <= len(told) else " " * width
    return Strip([Segment(shown, brush.of(Tone.FAINT))]).adjust_cell_length(width, brush.base)
