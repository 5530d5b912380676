"""A thousand keys at random on the demo: the screens stay up, the record keeps its rules."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.screens.app import Buildlog

KEYS = 1000
SIZES = ((80, 24), (200, 60), (40, 10), (120, 40), (60, 16))


@pytest.mark.parametrize("seed", range(11, 21))
async def test_a_thousand_keys_end_nothing_and_break_nothing(demo: Ledger, mash: Any, seed: int) -> None:
    app = Buildlog(demo)
    async with app.run_test(size=SIZES[seed % len(SIZES)]) as pilot:
        await mash(pilot, seed, KEYS)
        assert app.is_running
    assert demo.check() == []
