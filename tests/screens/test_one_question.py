"""A key that asks, pressed twice before its question stands."""

from typing import Any

import pytest
from textual.screen import ModalScreen

from buildlog.ledger import Ledger


def questions(on: Any) -> list[ModalScreen[Any]]:
    return [screen for screen in on.app.screen_stack if isinstance(screen, ModalScreen)]


async def press_at_once(on: Any, *keys: str) -> None:
    """All of them before anything that they set off."""
    for key in keys:
        on.app.simulate_key(key)
    await on.settle()


@pytest.mark.parametrize("key", ["s", "f", "x", "w", "t", "b", "colon", "ctrl+p"])
async def test_a_key_pressed_twice_asks_once(workshop: Ledger, screens: Any, key: str) -> None:
    async with screens(workshop) as on:
        await press_at_once(on, key, key)
        assert len(questions(on)) == (key != "b")  # leaving and back are typed on the screen itself


async def test_two_keys_at_once_open_the_question_of_the_first(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await press_at_once(on, "w", "s")
        assert len(questions(on)) == 1
        assert "Weigh which spool?" in on.text
        await on.press("escape")
        assert not questions(on)


async def test_after_a_question_was_left_its_key_asks_again(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await press_at_once(on, "s", "s")
        await on.press("escape")
        assert not questions(on)
        await on.press("s")
        assert len(questions(on)) == 1


async def test_what_was_refused_is_told_over_another_question(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("w")
        from buildlog.proposals.printers import PrinterDown

        on.app.run_worker(on.app.record(PrinterDown(printer="NOWHERE")))
        await on.pilot.pause(0.5)
        assert len(questions(on)) == 2
        assert "Nothing was recorded" in on.text
