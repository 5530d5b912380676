"""A clock that is wrong: whatever moment it shows, the demo is read, told and checked."""

from datetime import timedelta

import pytest

from buildlog.ledger import Ledger
from buildlog.report.week import week_text
from buildlog.status.status import take_stock


@pytest.mark.parametrize("days", [-20_000, -400, -120, -30, -1, 1, 30, 400, 4000, 60_000])
def test_the_demo_is_told_at_any_moment(demo: Ledger, days: int) -> None:
    shows = demo.clock() + timedelta(days=days)
    demo.clock = lambda: shows
    status = take_stock(demo.snapshot(), demo.now())
    assert week_text(status, None, None)
    assert demo.check() == []
