"""Questions by the mouse alone: a choice, a form and its record, a yes and a no."""

from __future__ import annotations

from typing import Any

from textual import events

from buildlog.ledger import Ledger
from buildlog.screens.widgets.hint_line import HintLine
from buildlog.screens.widgets.key_line import KeyLine


async def click_key(on: Any, words: str) -> None:
    """In the last line of the screen."""
    line = on.app.shown.query_one(KeyLine)
    await on.pilot.click(line, offset=(on.lines[-1].index(words), 0))
    await on.settle()


async def click_hint(on: Any, words: str) -> None:
    """In the last line of the question."""
    line = next(n for n, text in enumerate(on.lines) if words in text)
    hint = on.app.screen.query_one(HintLine)
    x = on.lines[line].index(words) - hint.region.x
    await on.pilot.click(hint, offset=(x + 1, line - hint.region.y))
    await on.settle()


async def test_a_choice_is_made_by_a_double_click_on_its_line(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await click_key(on, "weigh")
        grid = on.app.screen.query_one("#choices")
        await on.pilot.click(grid, offset=(6, 1), times=2)
        await on.settle()
        assert on.app.screen.query("TypedEntry"), on.text
        await on.write("900")
        await click_hint(on, "enter record")
    assert workshop.snapshot().spool_entries[-1].gross_mg == 900_000


async def test_a_choice_is_made_by_two_clicks_far_apart(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await click_key(on, "weigh")
        for _ in range(2):
            assert not on.app.screen.query("TypedEntry")
            await on.pilot.click(on.app.screen.query_one("#choices"), offset=(6, 1))
            await on.pilot.pause(0.6)
            await on.settle()
        await on.write("900")
        await click_hint(on, "enter record")
    assert workshop.snapshot().spool_entries[-1].gross_mg == 900_000


async def test_what_ctrl_p_found_is_gone_to_by_two_clicks(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("ctrl+p")
        await on.write("twin")
        for _ in range(2):
            assert on.app.current_mode == "today"
            await on.pilot.click(on.app.screen.query_one("#choices"), offset=(6, 0))
            await on.pilot.pause(0.6)
            await on.settle()
        assert on.app.current_mode == "prints"


async def test_what_is_offered_for_a_line_is_taken_by_two_clicks_and_typing_goes_on(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("colon")
        await on.write("weighed ")
        offers = on.app.screen.offers
        second = on.app.screen._offers["1"].adds
        await on.pilot.click(offers, offset=(6, 1))
        await on.pilot.pause(0.6)
        assert (on.app.screen.entry.value, offers.cursor_key) == ("weighed ", "1")
        await on.pilot.click(offers, offset=(6, 1))
        await on.settle()
        assert on.app.screen.entry.value == f"weighed {second} "
        await on.write("900 g")
        await on.press("enter")
    entry = workshop.snapshot().spool_entries[-1]
    spools = {spool.id: spool.code for spool in workshop.snapshot().spools}
    assert (entry.gross_mg, spools[entry.spool_id]) == (900_000, second)


async def test_a_form_is_filled_in_and_recorded_by_a_click_on_what_its_last_line_says(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("7 v")
        await on.pilot.click(next(iter(on.app.screen.query("TypedEntry"))))
        await on.write("how heavy")
        await click_hint(on, "enter record")
    assert [question.text for question in workshop.snapshot().viewer_questions] == ["how heavy"]


async def test_a_form_is_left_by_a_click(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("7 v")
        await click_hint(on, "esc leave")
        assert not on.app.screen.is_modal
    assert workshop.snapshot().viewer_questions == ()


async def test_a_long_list_of_a_question_is_scrolled_by_the_wheel(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("ctrl+p")
        grid = on.app.screen.query_one("#choices")
        await on.pilot._post_mouse_events([events.MouseScrollDown], grid, offset=(4, 2))
        await on.settle()
        assert grid.scroll_offset.y > 0
