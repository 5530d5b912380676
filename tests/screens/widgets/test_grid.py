import time
from collections.abc import Callable
from typing import Any

import pytest
from textual import events

from buildlog.screens.widgets.cells import Align, width_of
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Cell, Column, GridRow, Hint, SpanCell, group_row
from buildlog.screens.widgets.tones import Tone

COLUMNS = (
    Column("code", "Spool", width=6),
    Column("name", "Material", least=12),
    Column("left", "Left", width=8, align=Align.RIGHT),
    Column("state", "State", width=11, priority=1),
)


def spools() -> list[GridRow]:
    return [
        group_row("open", "Opened"),
        GridRow("SP-04", (Cell("SP-04"), Cell("Amber [/] rib"), Cell("412 g"), Cell("tight", Tone.CAUTION))),
        GridRow("SP-05", (Cell("SP-05"), Cell("琥珀色の光るフィラメント"), Cell("88 g"), Cell("short", Tone.BAD))),
        GridRow(
            "SP-06",
            (Cell("SP-06"), Cell("Old"), SpanCell((("0 g", Tone.STRONG), (" ±9", Tone.FAINT)))),
            Hint.PAST,
        ),
    ]


@pytest.fixture
def grid() -> Grid:
    made = Grid(COLUMNS, empty="No spool yet: receive one with e.")
    made.set_rows(spools())
    return made


async def test_it_draws_heading_groups_cells_and_the_signs_of_tones(bench: Callable[..., Any], grid: Grid) -> None:
    app = bench(grid)
    async with app.run_test(size=(48, 6)):
        assert app.lines[:5] == [
            "  Spool   Material            Left  State",
            "  Opened",
            "▌ SP-04   Amber [/] rib      412 g  ! tight",
            "  SP-05   琥珀色の光るフィ…   88 g  ✗ short",
            "  SP-06   Old               0 g ±9",
        ]


async def test_it_drops_the_least_important_column_where_the_line_is_short(
    bench: Callable[..., Any], grid: Grid
) -> None:
    app = bench(grid)
    async with app.run_test(size=(36, 6)):
        assert app.lines[0] == "  Spool   Material             Left"


async def test_keys_move_the_cursor_and_tell_of_it_by_key(
    bench: Callable[..., Any], grid: Grid, press: Callable[..., Any]
) -> None:
    app = bench(grid)
    async with app.run_test(size=(48, 8)) as pilot:
        await press(pilot, "down end home down enter")
        told = [(type(m).__name__, m.key) for m in app.heard]
        assert told == [
            ("Highlighted", "SP-04"),  # where the cursor stood first
            ("Highlighted", "SP-05"),
            ("Highlighted", "SP-06"),
            ("Highlighted", "SP-04"),
            ("Highlighted", "SP-05"),
            ("Chosen", "SP-05"),
        ]


async def test_space_marks_and_goes_on_and_the_mark_is_seen_without_colour(
    bench: Callable[..., Any], grid: Grid, press: Callable[..., Any]
) -> None:
    app = bench(grid)
    async with app.run_test(size=(48, 8)) as pilot:
        await press(pilot, "space space")
        assert grid.marked == ("SP-04", "SP-05")
        assert app.lines[2].startswith(" •SP-04")
        assert app.heard[-1].grid is grid


async def test_slash_filters_while_typing_and_escape_shows_all_again(
    bench: Callable[..., Any], grid: Grid, press: Callable[..., Any]
) -> None:
    app = bench(grid)
    async with app.run_test(size=(60, 8)) as pilot:
        await press(pilot, "slash a m q backspace")
        assert grid.shown_keys == ("open", "SP-04")
        assert app.lines[7].startswith(" / am▏")
        assert app.lines[7].endswith("1 shown · enter keeps · esc shows all")
        await press(pilot, "enter")
        assert app.lines[7].startswith(" / am ")
        await press(pilot, "escape")
        assert len(grid.shown_keys) == 4
        assert app.lines[7] == ""


async def test_a_click_takes_the_cursor_and_a_second_one_chooses(bench: Callable[..., Any], grid: Grid) -> None:
    app = bench(grid)
    async with app.run_test(size=(48, 8)) as pilot:
        await pilot.click(grid, offset=(10, 3))
        assert grid.cursor_key == "SP-05"
        await pilot.click(grid, offset=(10, 1))
        await pilot.click(grid, offset=(10, 0))
        assert grid.cursor_key == "SP-05"
        await pilot.click(grid, offset=(10, 3), times=2)
        assert [m.key for m in app.heard if isinstance(m, Grid.Chosen)] == ["SP-05"]


async def test_the_wheel_scrolls_and_leaves_the_cursor(bench: Callable[..., Any]) -> None:
    grid = Grid((Column("n", "N"),))
    grid.set_rows([GridRow(str(i), (Cell(f"row {i}"),)) for i in range(100)])
    app = bench(grid)
    async with app.run_test(size=(30, 8)) as pilot:
        await pilot._post_mouse_events([events.MouseScrollDown], grid)
        await pilot.pause(0.3)
        assert grid.scroll_offset.y > 0
        assert grid.cursor_key == "0"


async def test_nothing_is_hidden_behind_the_scrollbar(bench: Callable[..., Any]) -> None:
    grid = Grid((Column("n", "N", align=Align.RIGHT),))
    grid.set_rows([GridRow(str(i), (Cell(f"row {i}"),)) for i in range(100)])
    app = bench(grid)
    async with app.run_test(size=(30, 8)):
        assert app.lines[0] == " " * 28 + "N"
        assert app.lines[1][:29] == "▌" + " " * 23 + "row 0"


async def test_an_empty_grid_leads_in(bench: Callable[..., Any]) -> None:
    app = bench(Grid(COLUMNS, empty="No spool yet: receive one with e."))
    async with app.run_test(size=(48, 6)) as pilot:
        assert app.lines[2] == "  No spool yet: receive one with e."
        await pilot.press("down", "enter", "space")
        assert app.heard == []


async def test_a_long_text_that_leads_in_goes_on_in_the_next_line(bench: Callable[..., Any]) -> None:
    app = bench(Grid(COLUMNS, empty="No spool yet:\nreceive one with e, or read a list of them."))
    async with app.run_test(size=(30, 8)):
        told = [line.strip() for line in app.lines[2:6]]
        assert told == ["No spool yet:", "receive one with e, or", "read a list of them.", ""]


async def test_the_cursor_of_a_grid_without_focus_looks_different(
    bench: Callable[..., Any], grid: Grid, press: Callable[..., Any]
) -> None:
    other = Grid(COLUMNS)
    app = bench(grid, other)
    async with app.run_test(size=(48, 20)) as pilot:
        await press(pilot, "tab")
        assert app.lines[2].startswith("▏ SP-04")


async def test_the_last_row_is_reached_by_paging_and_stays_in_sight(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    grid = Grid((Column("n", "N"),))
    grid.set_rows([GridRow(str(i), (Cell(f"row {i}"),)) for i in range(30)])
    app = bench(grid)
    async with app.run_test(size=(30, 8)) as pilot:
        await press(pilot, "pagedown pagedown")
        assert grid.cursor_key == "14"
        await press(pilot, "end")
        assert app.lines[7].startswith("▌ row 29")
        await press(pilot, "slash 2")
        assert app.lines[6].startswith("▌ row 29")


async def test_a_move_of_the_cursor_draws_two_lines_anew(
    bench: Callable[..., Any], press: Callable[..., Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    grid = Grid((Column("n", "N"),))
    grid.set_rows([GridRow(str(i), (Cell(f"row {i}"),)) for i in range(30)])
    async with bench(grid).run_test(size=(30, 20)) as pilot:
        await pilot.pause()
        drawn: list[int] = []
        draw = grid.render_line
        monkeypatch.setattr(grid, "render_line", lambda y: drawn.append(y) or draw(y))
        await press(pilot, "down")
        assert set(drawn) == {1, 2}


async def test_twenty_thousand_rows_are_set_in_less_than_50_ms(bench: Callable[..., Any]) -> None:
    rows = [GridRow(str(i), (Cell(f"row {i}"), Cell("a"), Cell("b"), Cell("c"))) for i in range(20_000)]
    grid = Grid(COLUMNS)
    async with bench(grid).run_test(size=(80, 24)):
        took = []
        for _ in range(5):
            start = time.perf_counter()
            grid.set_rows(rows)
            took.append(time.perf_counter() - start)
        assert min(took) < 0.05


async def test_a_row_set_alone_shows_at_once(bench: Callable[..., Any], grid: Grid) -> None:
    app = bench(grid)
    async with app.run_test(size=(48, 8)) as pilot:
        grid.set_row(GridRow("SP-05", (Cell("SP-05"), Cell("weighed"), Cell("90 g"))))
        await pilot.pause()
        assert app.lines[3] == "  SP-05   weighed             90 g"


async def test_going_to_a_row_scrolls_it_into_sight(bench: Callable[..., Any]) -> None:
    grid = Grid((Column("n", "N"),))
    grid.set_rows([GridRow(str(i), (Cell(f"row {i}"),)) for i in range(300)])
    app = bench(grid)
    async with app.run_test(size=(30, 8)) as pilot:
        assert grid.move_to("250")
        await pilot.pause()
        assert any(line.startswith("▌ row 250") for line in app.lines)
        assert not grid.move_to("no such row")


async def test_a_tree_column_shows_depth_and_folds(bench: Callable[..., Any], press: Callable[..., Any]) -> None:
    grid = Grid((Column("name", "Assembly", tree=True),))
    grid.set_rows([GridRow(n, (Cell(n),), depth=d) for n, d in [("beetle", 0), ("head", 1), ("antenna", 2)]])
    app = bench(grid)
    async with app.run_test(size=(40, 6)) as pilot:
        assert app.lines[1:4] == ["▌ ▾ beetle", "    ▾ head", "        antenna"]
        await press(pilot, "down left")
        assert app.lines[1:4] == ["  ▾ beetle", "▌   ▸ head", ""]


async def test_a_text_that_nothing_follows_takes_the_room_of_empty_cells(
    bench: Callable[..., Any],
) -> None:
    grid = Grid((Column("thing", width=4), Column("what", least=6), Column("when", width=8, align=Align.RIGHT)))
    long = Cell("a text of some length")
    grid.set_rows([GridRow("a", (Cell("A"), long, Cell(""))), GridRow("b", (Cell("B"), long, Cell("20:00")))])
    app = bench(grid)
    async with app.run_test(size=(33, 4)):
        assert app.lines[:2] == ["▌ A     a text of some length", "  B     a text of some l…  20:00"]
        assert grid.cut_words() == ""


async def test_a_snug_column_is_as_wide_as_its_widest_cell(bench: Callable[..., Any]) -> None:
    grid = Grid((Column("what", least=6), Column("when", width=12, align=Align.RIGHT, snug=True)))
    grid.set_rows([GridRow("a", (Cell("a text of some length"), Cell("20:00", Tone.CAUTION)))])
    app = bench(grid)
    async with app.run_test(size=(33, 4)):
        assert app.lines[0] == "▌ a text of some length  ! 20:00"


async def test_a_row_is_drawn_where_there_is_no_room_for_any_column(bench: Callable[..., Any]) -> None:
    grid = Grid((Column("what", least=6, priority=1), Column("when", width=12, priority=2)))
    grid.set_rows([GridRow("a", (Cell("text"), Cell("20:00")))])
    app = bench(grid)
    async with app.run_test(size=(2, 4)):
        assert app.lines[0] == "▌"


async def test_wide_combining_and_right_to_left_names_leave_the_columns_after_them_in_place(
    bench: Callable[..., Any],
) -> None:
    names = (
        "琥珀色の光るフィラメントの長い名前",
        "re\u0301sine cho\u0302taigne tre\u0300s claire et longue",
        "חוט שקוף וארוך מאוד",
        "plain",
    )
    grid = Grid((Column("what", least=6), Column("when", width=12, align=Align.RIGHT), Column("state", width=5)))
    rows = [GridRow(name, (Cell(name), Cell("20:00"), Cell("open"))) for name in names]
    grid.set_rows([*rows, GridRow("long", (Cell(names[0]), Cell("done at 20:0"), Cell("open")))])
    app = bench(grid)
    async with app.run_test(size=(36, 7)):
        for line in app.lines[:5]:
            before = line[: line.index("open")]
            assert width_of(before.rstrip()) == 28
            assert width_of(before) == 30
