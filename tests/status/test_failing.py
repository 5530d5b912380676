"""How many prints failed, and between which shares that leaves the truth."""

from typing import Any

import pytest

from buildlog.status.failing import share_failing
from buildlog.terms import JobState, Moment

NOW, BEFORE = Moment("2026-11-25T12:00:00Z"), Moment("2026-11-24T12:00:00Z")


def test_before_the_first_print_anything_may_be(shop: Any) -> None:
    found = share_failing(shop.status().snapshot, NOW)
    assert (found.failed, found.ended, found.low, found.high) == (0, 0, 0.0, 1.0)


def test_failed_and_finished_prints_are_counted_and_cancelled_ones_are_not(shop: Any) -> None:
    """2 of 10: between the 5 % and 95 % quantiles of Beta(2.5, 8.5), here by summing its density."""
    part = shop.part("FOOT")
    shop.use(part, shop.assembly("ROOT", shop.build()))
    for state, many in ((JobState.FAILED, 2), (JobState.FINISHED, 8), (JobState.CANCELLED, 3)):
        for _ in range(many):
            shop.prints(part, state=state, ended_at=BEFORE)
    found = share_failing(shop.status().snapshot, NOW)
    assert (found.failed, found.ended) == (2, 10)
    assert (found.low, found.high) == pytest.approx(quantiles(2.5, 8.5), abs=1e-4)
    assert share_failing(shop.status().snapshot, Moment("2026-11-01T00:00:00Z")).ended == 0


def quantiles(a: float, b: float, tail: float = 0.05, steps: int = 200_000) -> tuple[float, float]:
    """By summing the density in small steps: another way than the method's."""
    marks = [(index + 0.5) / steps for index in range(steps)]
    weights = [x ** (a - 1) * (1 - x) ** (b - 1) for x in marks]
    whole, summed, low = sum(weights), 0.0, 0.0
    for x, weight in zip(marks, weights, strict=True):
        summed += weight / whole
        if not low and summed >= tail:
            low = x
        if summed >= 1 - tail:
            return low, x
    raise AssertionError("the density does not add up")
