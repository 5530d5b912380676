"""One Status: what is answered only when it is asked for comes out the same whenever that is."""

from operator import attrgetter
from typing import Any

import pytest

from buildlog.terms import JobState, Side

ANSWERS = (
    "progress",
    "machines",
    "doable",
    "outlook",
    "cost",
    "figures",
    "alerts",
    "learning.pace",
    "hours.sets",
    "hours.total_minutes",
    "hours.on_top",
    "hours.failing",
    "stock.timeline",
    "stock.materials",
    "stock.baskets",
    "stock.hours_burn_down",
)


@pytest.fixture
def busy(shop: Any) -> Any:
    """Two materials, a running print, something to print, a spare wanted, a piece with an open step."""
    build = shop.build()
    root = shop.assembly("BEETLE", build)
    legs = shop.assembly("LEG", root, paired=True)
    red = shop.material()
    shop.spool(red, 30_000)
    shop.printer()
    foot = shop.part("FOOT", handed=True)
    horn = shop.part("HORN")
    usage = shop.use(foot, legs, 2, spares_wanted=1)
    shop.use(horn, root)
    for part in (foot, horn):
        shop.demand(part, red, 20_000)
    shop.fit(shop.lot(foot, side=Side.LEFT), shop.position(legs, Side.LEFT), usage)
    shop.prints(foot, side=Side.RIGHT, state=JobState.RUNNING)
    shop.step(legs)
    return shop


@pytest.mark.parametrize("first", ANSWERS)
def test_an_answer_is_the_same_before_and_after_all_others_were_asked_for(busy: Any, first: str) -> None:
    asked_first, asked_last = busy.status(), busy.status()
    early = attrgetter(first)(asked_first)
    for name in reversed(ANSWERS):
        attrgetter(name)(asked_last)
    assert early == attrgetter(first)(asked_last)


def test_the_same_snapshot_and_moment_give_the_same_status_and_looking_changes_nothing(busy: Any) -> None:
    looked_at, fresh = busy.status(), busy.status()
    for name in ANSWERS:
        attrgetter(name)(looked_at)
    assert looked_at == fresh


def test_an_answer_is_computed_once(busy: Any) -> None:
    status = busy.status()
    assert status.doable is status.doable
    assert status.stock.materials is status.stock.materials


def test_a_fault_that_is_written_down_with_all_that_is_at_hand_stays_short(busy: Any) -> None:
    status = busy.status()
    assert len(repr(status) + repr(status.snapshot)) < 300
