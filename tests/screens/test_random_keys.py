"""Keys at random: whatever is pressed, typed and pasted, the screens stay up and the record keeps its rules."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.screens.app import Buildlog
from buildlog.screens.registry import MODES

KEYS = 80
MANY_KEYS = 1000


async def test_a_thousand_keys_over_every_screen_of_the_demo_end_nothing_and_break_nothing(
    demo: Ledger, mash: Any
) -> None:
    before = len(demo.journal())
    app = Buildlog(demo)
    async with app.run_test(size=(120, 40)) as pilot:
        seen = await mash(pilot, 1, MANY_KEYS)
        assert app.is_running
    assert {*MODES, "QuickLine"} <= seen
    assert len(demo.journal()) > before, "nothing was recorded"
    assert demo.check() == []


@pytest.mark.parametrize(("seed", "size"), [(1, (80, 24)), (2, (40, 10)), (3, (200, 60))])
async def test_no_keys_end_the_screens_or_break_the_record(
    workshop: Ledger, mash: Any, seed: int, size: tuple[int, int]
) -> None:
    app = Buildlog(workshop)
    async with app.run_test(size=size) as pilot:
        await mash(pilot, seed, KEYS)
        assert app.is_running
    assert workshop.check() == []


async def test_no_keys_end_the_screens_on_an_empty_ledger(ledger: Ledger, mash: Any) -> None:
    app = Buildlog(ledger)
    async with app.run_test() as pilot:
        await mash(pilot, 4, KEYS)
        assert app.is_running
    assert ledger.check() == []


async def test_no_keys_write_a_ledger_that_can_only_be_read(workshop: Ledger, mash: Any) -> None:
    before = len(workshop.journal())
    workshop.why_read_only = "the file is write-protected"
    app = Buildlog(workshop)
    async with app.run_test() as pilot:
        await mash(pilot, 5, KEYS)
        assert app.is_running
    assert len(workshop.journal()) == before
