"""What can be done now, as Today tells it."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.nouns import Change


def _below(on: Any) -> str:
    lines = [line for line in on.lines if line]
    return "\n".join(lines[next(i for i, line in enumerate(lines) if "Can be done now" in line) :])


@pytest.mark.parametrize(
    ("typed", "found", "gone"),
    [("h e a d space s a n d", "sand the head", "lanterns hung?"), ("1 5 space m i n", "lanterns hung?", "sand the")],
)
async def test_a_filter_finds_work_by_its_place_by_what_it_says_and_by_how_long_it_takes(
    workshop: Ledger, screens: Any, typed: str, found: str, gone: str
) -> None:
    async with screens(workshop) as on:
        assert gone in _below(on)
        await on.press("slash " + typed)
        assert found in _below(on)
        assert gone not in _below(on)


async def test_work_that_a_helper_can_do_says_so_and_is_found_by_it(workshop: Ledger, screens: Any) -> None:
    workshop.record(Change("step", "HEAD-SAND", {"helper_can": True}))
    async with screens(workshop) as on:
        await on.press("slash h e l p e r")
        assert "sand the head · a helper can" in _below(on)
        assert "lanterns hung?" not in _below(on)


async def test_work_that_comes_to_need_two_says_so_at_once(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        assert "needs two" not in _below(on)
        workshop.record(Change("step", "HEAD-SAND", {"needs_two": True}))
        on.app.refresh_status()
        await on.settle()
        assert "sand the head · needs two" in _below(on)
