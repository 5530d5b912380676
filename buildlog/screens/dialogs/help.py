"""`?`: the question a screen answers, its keys, and the words it uses.

self.app.push_screen(HelpScreen(Scope.MIRROR, "How far is each subassembly, and what holds it?", WORDS))
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.segment import Segment
from textual import on
from textual.message import Message
from textual.widget import Widget

from buildlog.facts.frozen import frozen
from buildlog.screens.dialogs.question import Question
from buildlog.screens.keys import SCREENS, Scope, bindings, keys_of
from buildlog.screens.own_keys import OwnKeys, as_set, own_keys
from buildlog.screens.widgets.cells import Align, fit, width_of, wrapped
from buildlog.screens.widgets.columns import GAP
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.grid_lines import GUTTER
from buildlog.screens.widgets.hint_line import HintLine
from buildlog.screens.widgets.rows import Cell, Column, GridRow, group_row
from buildlog.screens.widgets.tones import Brush, Tone
from buildlog.wording import count

TOGETHER = (Scope.LIST, Scope.EVERYWHERE)
IN_QUESTIONS = tuple(scope for scope in Scope if scope not in (*SCREENS, *TOGETHER))
NAME_AT_MOST = 18


@frozen
class Piece:
    """A line of a text that takes several; the filter finds each of them by any word of it."""

    text: str
    whole: str

    def words(self) -> str:
        return self.whole

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        return [Segment(fit(self.text, width, align), brush.of(Tone.PLAIN))]


class HelpLines(Grid):
    """The rows, each over as many lines as its text takes: help that is cut helps nobody."""

    parted = True

    class Laid(Message):
        """It was laid anew in other cells."""

    def __init__(self, rows: Sequence[GridRow]) -> None:
        widths = [width_of(row.cells[0].words()) for row in rows if len(row.cells) > 1]
        self._texts, self._name_width = tuple(rows), min(NAME_AT_MOST, max(widths))
        super().__init__((Column("name", width=self._name_width), Column("what", least=20)), id="help")
        self.set_rows(rows)

    @property
    def lines_below(self) -> int:
        """How many are out of sight below."""
        return max(0, len(self.view.shown) - self.page - self.scroll_offset.y)

    def cut_words(self, line: int | None = None) -> str:
        """Nothing: every text stands there whole, in lines."""
        return ""

    def on_resize(self) -> None:
        self.set_rows(in_lines(self._texts, self.room.width - GUTTER - self._name_width - GAP))
        self.post_message(self.Laid())


class HelpScreen(Question[None]):
    """Fed from KEYS, so that it cannot tell of a key that is not there; `/` searches it like any list."""

    BINDINGS = bindings(Scope.HELP)
    SCOPE = Scope.HELP

    def __init__(self, scope: Scope, question: str, words: Sequence[tuple[str, str]] = ()) -> None:
        super().__init__(question)
        self._scope, self._words = scope, tuple(words)

    def body(self) -> Iterable[Widget]:
        grid = HelpLines(help_rows(self._scope, self._words, own_keys(self.app)))
        self.as_high_as(grid, len(grid.view.rows) + 1)
        yield grid

    def on_mount(self) -> None:
        grid = self.query_one(HelpLines)
        self.watch(grid, "scroll_y", self._tell_more)

    @on(HelpLines.Laid)
    def _tell_more(self) -> None:
        """How many lines are still to come, after the keys."""
        more = self.query_one(HelpLines).lines_below
        self.query_one(HintLine).tell_beside(f"↓ {count(more, 'line')} more" if more else "")

    @on(Grid.Chosen)
    def _close(self) -> None:
        self.dismiss(None)


def help_rows(scope: Scope, words: Sequence[tuple[str, str]], own: OwnKeys) -> list[GridRow]:
    """Keys of the screen; its words with their meaning; keys of its lists and those everywhere, then of questions."""
    rows = _keys(scope, own)
    if words:
        rows.append(group_row("words", "Words"))
        rows += [GridRow(f"word:{word}", (Cell(word, Tone.STRONG), Cell(meaning))) for word, meaning in words]
    others = (part for part in (*TOGETHER, *IN_QUESTIONS) if part is not scope)
    return rows + [row for part in others for row in _keys(part, own)]


def in_lines(rows: Sequence[GridRow], width: int) -> list[GridRow]:
    """The rows with a line more for each that a text takes."""
    lines: list[GridRow] = []
    for row in rows:
        if len(row.cells) < 2:
            lines.append(row)
            continue
        name, text = row.cells[0], row.cells[1].words()
        for number, piece in enumerate(wrapped(text, max(1, width))):
            first = name if not number else Piece("", name.words())
            lines.append(GridRow(f"{row.key}+{number}" if number else row.key, (first, Piece(piece, text))))
    return lines


def _keys(scope: Scope, own: OwnKeys) -> list[GridRow]:
    rows = [
        GridRow(f"key:{scope.name}:{key.id}", (Cell(key.face, Tone.ACCENT), Cell(key.tooltip)))
        for key in as_set(keys_of(scope), own)
    ]
    return [group_row(f"scope:{scope.name}", f"Keys: {scope.value}"), *rows]
