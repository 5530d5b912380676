"""A window that is dragged: many sizes in a row, with a question open or not."""

from typing import Any

import pytest
from textual.events import Resize
from textual.geometry import Size

from buildlog.ledger import Ledger

WIDE, USUAL = Size(200, 60), Size(80, 24)


@pytest.mark.parametrize("keys", ["2", "2 n", "2 question_mark"])
async def test_sizes_that_follow_each_other_quickly_come_to_rest_at_the_last(
    workshop: Ledger, screens: Any, keys: str
) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await on.press(keys)
        for size in (WIDE, USUAL, WIDE, USUAL):  # as the terminal reports them, none waiting for the one before
            on.app.post_message(Resize(size, size))
        for screen in on.app.screen_stack:
            for size in (WIDE, USUAL) * 3:
                screen.post_message(Resize(size, size))
                screen.call_later(lambda: None)  # else the second takes the place of the first
        await on.pilot.pause(0.5)
        laid = []
        for screen in on.app.screen_stack:
            screen.screen_layout_refresh_signal.subscribe(screen, laid.append, immediate=True)
        await on.pilot.pause(0.5)
        assert len(laid) < 5
        assert {screen.size for screen in on.app.screen_stack} == {USUAL}
