"""`ctrl+p` shows what fits best first, with the cursor on it."""

from typing import Any

import pytest

from buildlog.ledger import Ledger


def shown(on: Any) -> list[str]:
    """What the list of the question shows, from its first line on."""
    grid = on.app.screen.query_one("#choices")
    return [on.app.screen._choices[int(key)].label for key in grid.shown_keys]


async def look_for(on: Any, text: str) -> None:
    await on.press("ctrl+p")
    await on.write(text)


async def test_a_whole_code_stands_above_keys_that_hold_it(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await look_for(on, "old")
        others = shown(on)[1:]
        assert any("old" in label or "hold" in label for label in others), others
        await on.press("enter")
        printers = {printer.code: printer.id for printer in workshop.snapshot().printers}
        assert on.app.current_mode == "prints"
        assert on.app.shown.cursor_key == f"printer:{printers['OLD']}"


async def test_codes_begun_stand_above_names_begun_and_those_above_words(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await look_for(on, "head")
        found = shown(on)
        assert found[0] == "HEAD"
        assert {"HEAD-SAND", "HEAD-LOOK"} == set(found[1:3])
        assert found.index("TWIN") > 2  # «Two heads»


async def test_the_cursor_stands_on_the_best_after_each_letter(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await look_for(on, "hea")
        await on.press("down down")
        await on.write("d")
        grid = on.app.screen.query_one("#choices")
        assert grid.cursor_key == grid.shown_keys[0]


@pytest.mark.parametrize("words", ["export counts", "print history"])
async def test_what_is_exported_is_found_by_the_words_of_the_shell(
    workshop: Ledger, screens: Any, words: str
) -> None:
    async with screens(workshop) as on:
        await look_for(on, words)
        assert "export" in shown(on)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_all_stand_in_their_order_again_once_nothing_is_typed(
    workshop: Ledger, screens: Any, size: tuple[int, int]
) -> None:
    async with screens(workshop, size) as on:
        await on.press("ctrl+p")
        before = shown(on)
        await on.write("head")
        assert len(shown(on)) < len(before)
        await on.press("backspace backspace backspace backspace")
        assert shown(on) == before
        await on.write("head")
        await on.press("escape")
        assert shown(on) == before
