"""Manners of every screen: mouse, focus, filter, windows, no colour; and that everything is found by its name."""

from typing import Any

import pytest
from rich.cells import cell_len
from textual import events

from buildlog.ledger import Ledger
from buildlog.proposals.nouns import FORMS, Add
from buildlog.screens.base import LEAST_HEIGHT, LEAST_WIDTH, TOO_SMALL
from buildlog.screens.finding import named_things
from buildlog.screens.keys import Scope, in_force
from buildlog.screens.registry import MODES
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.grid_lines import CURSOR_SIGN
from buildlog.screens.widgets.key_line import KeyLine
from buildlog.screens.widgets.title_line import TitleLine

WINDOWS = ((80, 24), (120, 40), (LEAST_WIDTH, LEAST_HEIGHT), (200, 50), (80, 24))


async def go(on: Any, mode: str) -> Any:
    await on.app.action_go(mode)
    await on.settle()
    return on.app.shown


def focused_grid(on: Any) -> Grid:
    assert isinstance(on.app.focused, Grid), f"the focus is on {on.app.focused}"
    return on.app.focused


@pytest.mark.parametrize("mode", MODES)
async def test_the_focus_is_seen_on_every_screen(workshop: Ledger, screens: Any, mode: str) -> None:
    async with screens(workshop) as on:
        await go(on, mode)
        grid = focused_grid(on)
        assert grid.region.area
        assert not grid.view.shown or CURSOR_SIGN in on.text


@pytest.mark.parametrize("mode", MODES)
async def test_every_list_is_filtered_by_typing_and_esc_shows_all(workshop: Ledger, screens: Any, mode: str) -> None:
    async with screens(workshop) as on:
        screen = await go(on, mode)
        if mode == "journal":
            await on.press("r")
        lists = [grid for grid in screen.query(Grid) if grid.region.area and grid.can_focus]
        assert lists
        for grid in lists:
            grid.focus()
            await on.settle()
            whole = grid.shown_keys
            await on.press("slash")
            await on.pilot.press("z", "q", "x")
            assert grid.shown_keys == ()
            assert "/ zqx" in on.text
            await on.press("escape")
            assert grid.shown_keys == whole
            assert on.app.current_mode == mode


@pytest.mark.parametrize("mode", MODES)
async def test_a_click_selects_a_row_and_the_wheel_scrolls(workshop: Ledger, screens: Any, mode: str) -> None:
    async with screens(workshop) as on:
        await go(on, mode)
        grid = focused_grid(on)
        rows = [y for y in range(grid.room.height) if grid.line_at(y) is not None]
        if rows:
            await on.pilot.click(grid, offset=(4, rows[-1]))
            await on.settle()
            assert grid.view.cursor == grid.line_at(rows[-1])
        if grid.max_scroll_y:
            await on.pilot._post_mouse_events([events.MouseScrollDown], grid, offset=(4, 2))
            await on.settle()
            assert grid.scroll_offset.y > 0


@pytest.mark.parametrize("mode", MODES)
async def test_the_window_may_change_at_any_time(workshop: Ledger, screens: Any, mode: str) -> None:
    async with screens(workshop) as on:
        await go(on, mode)
        for width, height in WINDOWS:
            await on.pilot.resize_terminal(width, height)
            await on.settle()
            strips = on.app.screen._compositor.render_strips()
            assert len(strips) == height
            assert {sum(cell_len(segment.text) for segment in strip) for strip in strips} == {width}
            assert focused_grid(on).region.area, (width, height)
            assert TOO_SMALL not in on.text


@pytest.mark.parametrize("mode", MODES)
async def test_without_colour_nothing_is_drawn_in_colour(
    workshop: Ledger, screens: Any, monkeypatch: pytest.MonkeyPatch, mode: str
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with screens(workshop) as on:
        screen = await go(on, mode)
        for widget in (*screen.query(Grid), screen.query_one(KeyLine), screen.query_one(TitleLine)):
            lines = widget.render_lines(widget.size.region) if widget.size else []
            for segment in (segment for strip in lines for segment in strip):
                colours = (segment.style.color, segment.style.bgcolor) if segment.style else ()
                for colour in (c.get_truecolor() for c in colours if c is not None):
                    assert max(colour) - min(colour) <= 1, (mode, segment)


@pytest.mark.parametrize("mode", MODES)
async def test_a_click_on_the_key_line_is_as_good_as_the_key(workshop: Ledger, screens: Any, mode: str) -> None:
    async with screens(workshop) as on:
        screen = await go(on, mode)
        line = on.lines[-1]
        await on.pilot.click(screen.query_one(KeyLine), offset=(line.index("? help"), 0))
        await on.settle()
        assert screen.QUESTION in " ".join(on.text.split()).replace("▌ ", "")
        await on.press("escape")
        before = on.text
        await on.pilot.click(screen.query_one(KeyLine), offset=(0, 0))
        await on.settle()
        assert on.text == before, "beside the keys"
        await on.pilot.click(screen.query_one(KeyLine), offset=(2, 0))
        await on.settle()
        assert on.text != before, "the first key"


async def test_a_click_on_filter_begins_to_filter(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        screen = await go(on, "fits")
        await on.pilot.click(screen.query_one(KeyLine), offset=(on.lines[-1].index("filter"), 0))
        await on.settle()
        assert focused_grid(on).typing


async def test_a_click_on_a_name_in_the_first_line_goes_there(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        for name, mode in (("Prints", "prints"), ("Stock", "stock"), ("1", "today")):
            await on.pilot.click(on.app.shown.query_one(TitleLine), offset=(on.lines[0].index(name), 0))
            await on.settle()
            assert on.app.current_mode == mode


@pytest.mark.parametrize(
    ("typed", "does"),
    [
        ("n e w e s t space c h a n g e", "Nothing was changed from here yet"),
        ("f i l t e r", " / ▏"),
        ("l i g h t", ""),
        ("M i r r o r", "◂ left"),
    ],
)
async def test_any_command_is_found_and_done(workshop: Ledger, screens: Any, typed: str, does: str) -> None:
    async with screens(workshop) as on:
        theme = on.app.theme
        await on.press(f"ctrl+p {typed} enter")
        assert does in on.text
        assert does or on.app.theme != theme


def test_everything_that_has_a_name_can_be_found(workshop: Ledger) -> None:
    more = (
        FORMS["box"](code="VAN", name="van"),
        FORMS["resource"](code="JIG", name="jig", kind="jig"),
        FORMS["episode"](build="LB", number=1, films_at="2026-11-28T13:00:00Z"),
        FORMS["spool"](code="C1", material="PLA-AMBER"),
    )
    for form in more:
        workshop.record(Add(form))
    found = {sought.choice.value[0] for sought in named_things(workshop.snapshot())}
    coded = {noun for noun, form in FORMS.items() if form.KEY == ("code",)}
    told_elsewhere = {"shot", "viewer question", "promise"}
    assert coded - told_elsewhere | {"episode", "lot"} <= found | {"lot"}


@pytest.mark.parametrize("scope", [s for s in Scope if s.name.lower() in MODES])
def test_help_and_filter_stand_in_the_key_line_of_every_screen(scope: Scope) -> None:
    ids = [key.id for key in in_force(scope)]
    assert {"help", "filter", "find", "undo", "switch_build"} <= set(ids)
