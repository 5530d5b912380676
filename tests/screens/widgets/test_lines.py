"""Key line, facts line and alerts: the lines above and below a screen's lists."""

from collections.abc import Callable
from typing import Any

import pytest

from buildlog.screens.keys import Scope, in_force
from buildlog.screens.widgets.alert_list import MORE_KEY, folded
from buildlog.screens.widgets.cells import width_of
from buildlog.screens.widgets.facts_line import Fact, FactsLine
from buildlog.screens.widgets.key_line import KeyLine, key_spans
from buildlog.screens.widgets.rows import Cell, GridRow
from buildlog.screens.widgets.said_line import SaidLine
from buildlog.screens.widgets.tones import Tone


@pytest.mark.parametrize("width", range(10, 160))
def test_the_key_line_holds_whole_keys_and_ends_with_help_at_any_width(width: int) -> None:
    keys = in_force(Scope.TODAY)
    text = "".join(text for text, _ in key_spans(keys, width)).strip()
    labels = {f"{key.face} {key.label}" for key in keys if key.shown} | {"…"}
    assert width_of(text) <= width
    assert set(text.split("  ")) <= labels
    assert text.endswith("? help")
    assert ("…" in text) == (set(text.split("  ")) != labels - {"…"})


async def test_the_key_line_shows_the_keys_of_the_scope_in_view(bench: Callable[..., Any]) -> None:
    line = KeyLine(Scope.MIRROR)
    app = bench(line)
    async with app.run_test(size=(80, 4)) as pilot:
        assert app.lines[3] == " s start  t tick  r fit  i put in  o take out  d stand-in  e edit  …  ? help"
        line.show(Scope.STOCK)
        await pilot.pause()
        assert app.lines[3].startswith(" l load  w weigh  e receive  o order")


PARADE = (Fact("parade", "24 days"), Fact("to print", "312 h", Tone.CAUTION), Fact("on top", "× 1.5"))


async def test_a_fact_that_does_not_fit_goes_whole_to_a_second_line(bench: Callable[..., Any]) -> None:
    line = FactsLine()
    app = bench(line)
    async with app.run_test(size=(44, 4)) as pilot:
        line.show(PARADE)
        await pilot.pause()
        assert app.lines[:2] == ["  parade 24 days   to print ! 312 h", "  on top × 1.5"]
        line.show(PARADE[:1])
        await pilot.pause()
        assert app.lines[:2] == ["  parade 24 days", ""]


async def test_facts_that_fit_no_second_line_either_are_left_out_whole(bench: Callable[..., Any]) -> None:
    line = FactsLine()
    app = bench(line)
    async with app.run_test(size=(44, 4)) as pilot:
        line.show(PARADE * 2)
        await pilot.pause()
        assert app.lines[:3] == ["  parade 24 days   to print ! 312 h", "  on top × 1.5   parade 24 days   …", ""]


async def test_a_fact_that_is_longer_than_a_line_is_parted_between_words(bench: Callable[..., Any]) -> None:
    line = FactsLine()
    app = bench(line)
    async with app.run_test(size=(44, 4)) as pilot:
        line.show((Fact("AMBER", "below the reserve of 561 g on Sat 26 Dec; 4 days to come"),))
        await pilot.pause()
        assert app.lines[:2] == ["  AMBER below the reserve of 561 g on Sat", "  26 Dec; 4 days to come"]


async def test_of_a_fact_too_long_for_the_lines_left_the_beginning_is_shown(
    bench: Callable[..., Any],
) -> None:
    line = FactsLine()
    app = bench(line)
    async with app.run_test(size=(44, 4)) as pilot:
        line.show((Fact("changes", "4"), Fact("u", "takes back the print of both shins that was finished at one")))
        await pilot.pause()
        assert app.lines[:3] == ["  changes 4", "  u takes back the print of both shins that…", ""]


async def test_what_is_said_takes_the_lines_that_it_needs_and_follows_the_width(bench: Callable[..., Any]) -> None:
    line = SaidLine()
    app = bench(line)
    async with app.run_test(size=(44, 5)) as pilot:
        line.say("琥珀色 is short by 88 g: load another spool with l, or print less.", Tone.BAD)
        await pilot.pause()
        assert app.lines[:3] == ["  ✗ 琥珀色 is short by 88 g: load another", "  spool with l, or print less.", ""]
        await pilot.resize_terminal(80, 5)
        await pilot.pause()
        assert app.lines[:2] == ["  ✗ 琥珀色 is short by 88 g: load another spool with l, or print less.", ""]
        line.say("word " * 100)
        await pilot.pause()
        assert [bool(text) for text in app.lines] == [True, True, True, False, False]
        assert app.lines[2].endswith("…")


def told(rows: list[GridRow]) -> list[str]:
    return [row.cells[-1].text for row in rows]


def test_alerts_fold_beyond_five_with_a_last_line_that_unfolds_them() -> None:
    rows = [GridRow(f"alert:{i}", (Cell(f"order {i}"),)) for i in range(8)]
    assert told(folded(rows, False)) == [*(f"order {i}" for i in range(5)), "… and 3 more"]
    assert folded(rows, False)[-1].key == MORE_KEY
    assert told(folded(rows, True)) == [*(f"order {i}" for i in range(8)), "fold again"]


def test_five_alerts_stand_unfolded() -> None:
    rows = [GridRow(f"alert:{i}", (Cell(f"order {i}"),)) for i in range(5)]
    assert folded(rows, False) == rows
