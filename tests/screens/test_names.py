"""Names in any script, as wide or as long as they come: no row breaks, and nothing is cut without a sign."""

from collections.abc import Iterator
from itertools import cycle
from typing import Any

import pytest
from rich.cells import cell_len
from textual.widget import Widget

from buildlog.ledger import Ledger
from buildlog.proposals.notes import AddNote
from buildlog.proposals.nouns import FORMS, Add, Change, noun_fields
from buildlog.screens.registry import MODES
from buildlog.screens.things_rows import NOUNS
from buildlog.screens.widgets.cells import CUT_SIGN, clean
from buildlog.screens.widgets.chart import Chart
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.span_line import SpanLine
from buildlog.status.forms import keys_of

NAMES = (
    "左前脚の長い部品",
    "horn 🪲🔥 of the beetle",
    "רגל קדמית שמאלית",
    "الساق الأمامية",
    "e\u0301lytre a\u0300 gauche",
    "👩‍🚀 seat 🇺🇳 flag",
    "한글 다리 관절",
    "a name that somebody went on and on with until no list could hold the whole of it",
)
SIZES = ((80, 24), (120, 40))


MORE = (
    FORMS["box"](code="BOX", name="box"),
    FORMS["resource"](code="JIG", name="jig", kind="jig"),
    FORMS["episode"](build="LB", number=1, films_at="2026-11-28T13:00:00Z"),
    FORMS["goal"](build="LB", number=1, kind="free", text=NAMES[1]),
)


@pytest.fixture
def named(workshop: Ledger) -> Ledger:
    """The workshop and more, everything in it called by one of the names in turn; a note too."""
    workshop.record_all([(Add(form), None) for form in MORE], "more to name")
    snapshot, names, wishes = workshop.snapshot(), cycle(NAMES), []
    for noun in NOUNS:
        told = {field.name for field in noun_fields(noun)} & {"name", "text", "title"} - set(FORMS[noun].KEY)
        wishes += [
            (Change(noun, key, {field: next(names)}), None) for key in keys_of(snapshot, noun) for field in told
        ]
    assert len(wishes) > 2 * len(NAMES)
    workshop.record_all([*wishes, (AddNote(about="", text=NAMES[0]), None)], NAMES[-1])
    return workshop


def drawn(screen: Any) -> Iterator[tuple[Widget, int, str]]:
    """Every line that a widget of ours draws itself: the widget, the width it has, the text."""
    for widget in screen.query("*"):
        if not isinstance(widget, Grid | SpanLine | Chart) or not widget.display or not widget.size:
            continue
        if not widget.region.area:
            continue
        width = widget.room.width if isinstance(widget, Grid) else widget.size.width
        height = widget.room.height if isinstance(widget, Grid) else widget.size.height
        for y in range(height):
            yield widget, width, "".join(segment.text for segment in widget.render_line(y))


def cut_in_silence(grid: Grid) -> list[str]:
    """Texts of cells that stand on their line neither whole nor with the sign that something is left out."""
    missing = []
    for y in range(grid.top, grid.room.height):
        line = y - grid.top + grid.scroll_offset.y
        if line >= len(grid.view.shown) or (grid.filtering and y == grid.room.height - 1):
            break
        drawn_text = "".join(segment.text for segment in grid.render_line(y))
        shown = {placed.index for placed in grid._laid_out(grid.room.width)}
        cells = [cell for i, cell in enumerate(grid.view.shown[line].cells) if i in shown]
        texts = [clean(cell.words()) for cell in cells if type(cell).__name__ in ("Cell", "SpanCell")]
        missing += [text for text in texts if text.strip() not in drawn_text and CUT_SIGN not in drawn_text]
    return missing


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("mode", MODES)
async def test_no_name_breaks_a_row_of_any_screen(
    named: Ledger, screens: Any, mode: str, size: tuple[int, int]
) -> None:
    async with screens(named, size=size) as on:
        await on.app.action_go(mode)
        await on.settle()
        nouns = NOUNS if mode == "things" else ("",)
        for noun in nouns:
            if noun:
                on.app.shown.nouns.move_to(f"noun:{noun}")
                await on.settle()
            lines = list(drawn(on.app.shown))
            assert lines
            ragged = [(type(w).__name__, text) for w, width, text in lines if cell_len(text) != width]
            assert ragged == []
            steering = [text for _, _, text in lines if any(ord(c) < 32 or "\u202a" <= c <= "\u202e" for c in text)]
            assert steering == []
            assert [text for grid in on.app.shown.query(Grid) if grid.display for text in cut_in_silence(grid)] == []


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_no_name_breaks_a_question(named: Ledger, screens: Any, size: tuple[int, int]) -> None:
    async with screens(named, size=size) as on:
        for keys in ("1 s", "escape f", "escape l", "escape w", "escape ctrl+p", "escape escape question_mark"):
            await on.press(keys)
            lines = list(drawn(on.app.screen))
            ragged = [text for _, width, text in lines if cell_len(text) != width]
            assert ragged == [], keys
