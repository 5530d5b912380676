"""Catch up with joints that were curing when the ledger was left."""

from __future__ import annotations

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.places import read_place
from buildlog.proposals.steps import TickStep


@pytest.mark.parametrize(("answer", "ticks"), [("y", 1), ("x", 0), ("n", 1), ("l", 1)])
async def test_each_answer_of_a_joint_that_was_curing(
    workshop: Ledger, screens: Any, clock: Any, answer: str, ticks: int
) -> None:
    """«It holds» and «nobody has looked» leave the tick; «did not hold» opens the step again."""
    clock.move_on(days=5, hours=-1)
    tick = TickStep(step="LEG-BOND", place=read_place("LEG L"), overruled=True)
    workshop.record(tick, clock.ago(days=5, hours=1))
    before = len(workshop.journal())
    async with screens(workshop) as on:
        await on.press("0")
        due = next(due for due in on.app.shown._dues if due.kind == "cure")
        on.app.screen.query_one("#dues").move_to(due.key)
        await on.settle()
        assert "bond shin and toes: cured" in on.text
        await on.press(answer)
        assert due.key not in [due.key for due in on.app.shown._dues]
    snapshot = workshop.snapshot()
    assert len([one for one in snapshot.steps_done if one.reopened_at is None]) == ticks
    assert len(workshop.journal()) == before + (answer == "x")
