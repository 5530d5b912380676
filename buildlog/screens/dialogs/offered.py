"""The names that fit what is typed into a field, as a list below it."""

from __future__ import annotations

from collections.abc import Sequence

from rich.segment import Segment
from textual.geometry import Size
from textual.strip import Strip
from textual.widget import Widget

from buildlog.screens.widgets.cells import clean, fit
from buildlog.screens.widgets.tones import Tone, brush_for

SHOWN = 5


def last_piece(text: str) -> tuple[str, str]:
    """What stands up to the last comma, and what is typed after it: of ``FL07 L, fl`` the ``fl``."""
    cut = text.rfind(",") + 1
    cut += len(text[cut:]) - len(text[cut:].lstrip())
    return text[:cut], text[cut:]


def names_that_fit(names: Sequence[str], typed: str) -> tuple[str, ...]:
    """Those that begin with it, then those that hold it; none where one of them is typed out."""
    wanted = typed.casefold()
    folded = [(name, name.casefold()) for name in names]
    if any(wanted == low for _, low in folded):
        return ()
    begin = [name for name, low in folded if low.startswith(wanted)]
    return (*begin, *(name for name, low in folded if wanted in low and not low.startswith(wanted)))


class Offered(Widget):
    """The lit name is what tab and → take; a line says how many more there are."""

    def __init__(self) -> None:
        super().__init__(id="offered")
        self._names: tuple[str, ...] = ()
        self._lit: int | None = None
        self.display = False

    @property
    def lit(self) -> str:
        """The name that would be taken; empty where none is lit."""
        return "" if self._lit is None else self._names[self._lit]

    def offer(self, names: Sequence[str], lit: int | None) -> None:
        """Show these instead, from the lit one's page on; nothing to offer hides the list."""
        self._names = tuple(names)
        self._lit = None if lit is None or not names else max(0, min(len(names) - 1, lit))
        self.display = bool(names)
        self.refresh(layout=True)

    def go(self, by: int) -> None:
        """Light the next name, or the one before."""
        self.offer(self._names, 0 if self._lit is None else self._lit + by)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return min(len(self._names), SHOWN) + (len(self._names) > SHOWN)

    def render_line(self, y: int) -> Strip:
        width, brush = self.size.width, brush_for(self)
        first = max(0, (self._lit or 0) - SHOWN + 1)
        at = first + y
        if y >= SHOWN:
            text, tone = f"  … {len(self._names)} in all: type on, or pgdn", Tone.FAINT
        elif at >= len(self._names):
            return Strip.blank(width, brush.base)
        elif at == self._lit:
            text, tone = f"› {self._names[at]}  tab", Tone.ACCENT
        else:
            text, tone = f"  {self._names[at]}", Tone.PLAIN
        return Strip([Segment(fit(clean(text), width), brush.of(tone))]).adjust_cell_length(width, brush.base)
