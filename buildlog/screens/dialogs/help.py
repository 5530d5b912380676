"""`?`: the question a screen answers, its keys, and the words it uses.

self.app.push_screen(HelpScreen(Scope.MIRROR, "How far is each subassembly, and what holds it?", WORDS))
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from textwrap import wrap

from rich.segment import Segment
from textual import on
from textual.widget import Widget

from buildlog.facts.frozen import frozen
from buildlog.screens.dialogs.question import Question
from buildlog.screens.keys import SCREENS, Scope, bindings, keys_of
from buildlog.screens.own_keys import OwnKeys, as_set, own_keys
from buildlog.screens.widgets.cells import Align, fit, width_of
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Cell, Column, GridRow, group_row
from buildlog.screens.widgets.tones import Brush, Tone

TOGETHER = (Scope.LIST, Scope.EVERYWHERE)
IN_QUESTIONS = tuple(scope for scope in Scope if scope not in (*SCREENS, *TOGETHER))
PANEL = 80
BESIDE_THE_TEXT = 10
"""Edge and padding of the panel, what stands before a row, the gap after its name, and the scrollbar."""


@frozen
class Piece:
    """A line of a text that takes several; the filter finds each of them by any word of it."""

    text: str
    whole: str

    def words(self) -> str:
        return self.whole

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        return [Segment(fit(self.text, width, align), brush.of(Tone.PLAIN))]


class HelpScreen(Question[None]):
    """Fed from KEYS, so that it cannot tell of a key that is not there; `/` searches it like any list."""

    BINDINGS = bindings(Scope.HELP)
    SCOPE = Scope.HELP

    def __init__(self, scope: Scope, question: str, words: Sequence[tuple[str, str]] = ()) -> None:
        super().__init__(question)
        self._scope, self._words = scope, tuple(words)

    def body(self) -> Iterable[Widget]:
        rows = help_rows(self._scope, self._words, own_keys(self.app))
        name = min(18, max(width_of(row.cells[0].words()) for row in rows if len(row.cells) > 1))
        columns = (Column("name", width=name, align=Align.RIGHT), Column("what", least=20))
        grid = Grid(columns, id="help")
        grid.set_rows(wrapped(rows, min(PANEL, self.app.size.width) - BESIDE_THE_TEXT - name))
        grid.styles.height = min(self.room, len(grid.view.shown) + 1)
        yield grid

    @on(Grid.Chosen)
    def _close(self) -> None:
        self.dismiss(None)


def help_rows(scope: Scope, words: Sequence[tuple[str, str]], own: OwnKeys) -> list[GridRow]:
    """Keys of the screen, of its lists, those everywhere; words with their meaning; then the keys of questions."""
    rows = [row for part in dict.fromkeys((scope, *TOGETHER)) for row in _keys(part, own)]
    if words:
        rows.append(group_row("words", "Words"))
        rows += [GridRow(f"word:{word}", (Cell(word, Tone.STRONG), Cell(meaning))) for word, meaning in words]
    return rows + [row for part in IN_QUESTIONS for row in _keys(part, own)]


def wrapped(rows: Sequence[GridRow], width: int) -> list[GridRow]:
    """The rows with a line more for each that a text takes: help that is cut helps nobody."""
    lines: list[GridRow] = []
    for row in rows:
        if len(row.cells) < 2:
            lines.append(row)
            continue
        name, text = row.cells[0], row.cells[1].words()
        for number, piece in enumerate(wrap(text, width)):
            first = name if not number else Piece("", name.words())
            lines.append(GridRow(f"{row.key}+{number}" if number else row.key, (first, Piece(piece, text))))
    return lines


def _keys(scope: Scope, own: OwnKeys) -> list[GridRow]:
    rows = [
        GridRow(f"key:{scope.name}:{key.id}", (Cell(key.face, Tone.ACCENT), Cell(key.tooltip)))
        for key in as_set(keys_of(scope), own)
    ]
    return [group_row(f"scope:{scope.name}", f"Keys: {scope.value}"), *rows]
