"""Questions under the mouse: a click points, another one on the same line picks, however late it comes."""

from collections.abc import Callable
from typing import Any

import pytest

from buildlog.screens.dialogs.choose import Choice, Choose
from buildlog.screens.dialogs.tick_off import TickOff

CHOICES = [Choice(f"value {i}", f"file {i}", f"{i} h") for i in range(1, 12)]


async def ask(app: Any, pilot: Any, question: Any) -> Any:
    app.ask(question)
    await pilot.pause()
    return app.screen.query_one("#choices")


async def click(pilot: Any, grid: Any, line: int) -> None:
    """One by itself, and not the second half of a double click."""
    await pilot.click(grid, offset=(6, line))
    await pilot.pause(0.6)


async def test_another_click_on_a_line_chooses_it_however_late(bench: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        grid = await ask(app, pilot, Choose("Which?", CHOICES))
        await click(pilot, grid, 2)
        assert (grid.cursor_key, app.answers) == ("2", [])
        await click(pilot, grid, 2)
        assert app.answers == ["value 3"]


@pytest.mark.parametrize("line", [0, 2])
async def test_a_double_click_chooses_as_before(bench: Callable[..., Any], line: int) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        grid = await ask(app, pilot, Choose("Which?", CHOICES))
        await pilot.click(grid, offset=(6, line), times=2)
        await pilot.pause()
        assert app.answers == [CHOICES[line].value]


async def test_the_first_click_answers_nothing_where_the_cursor_stands_already(bench: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        grid = await ask(app, pilot, Choose("Which?", CHOICES))
        await click(pilot, grid, 0)
        assert (grid.cursor_key, app.answers) == ("0", [])
        await click(pilot, grid, 0)
        assert app.answers == ["value 1"]


async def test_clicks_on_different_lines_only_move_the_cursor(bench: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        grid = await ask(app, pilot, Choose("Which?", CHOICES))
        for line in (2, 3, 2):
            await click(pilot, grid, line)
        assert (grid.cursor_key, app.answers) == ("2", [])


@pytest.mark.parametrize("keys", [("down", "up"), ("down",), ("home", "down", "down")])
async def test_a_line_that_the_cursor_left_is_pointed_at_anew(
    bench: Callable[..., Any], keys: tuple[str, ...]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        grid = await ask(app, pilot, Choose("Which?", CHOICES))
        await click(pilot, grid, 2)
        await pilot.press(*keys)
        await click(pilot, grid, 2)
        assert (grid.cursor_key, app.answers) == ("2", [])


async def test_a_click_beside_the_lines_answers_nothing(bench: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        grid = await ask(app, pilot, Choose("Which?", CHOICES[:2]))
        await click(pilot, grid, 1)
        await click(pilot, grid, 2)
        await click(pilot, grid, 2)
        assert (grid.cursor_key, app.answers) == ("1", [])


async def test_another_click_ticks_a_line_and_takes_the_tick_away(bench: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        grid = await ask(app, pilot, TickOff("What changes?", CHOICES[:3]))
        for line in (1, 1, 2, 2, 2, 0, 0):
            await click(pilot, grid, line)
        assert app.answers == []
        assert [row.count("[x]") for row in app.lines if "file" in row] == [1, 1, 0]
        await pilot.press("enter")
        await pilot.pause()
        assert app.answers == [("value 1", "value 2")]
