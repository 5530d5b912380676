"""What was left at the end of each week, replayed, and what will be left at a pace. Arithmetic."""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate
from typing import NamedTuple


class Forecast(NamedTuple):
    """What is left after so many `weeks` (never below 0): at the pace, at the fast and at the slow end of
    it."""

    weeks: int
    left: float
    least: float
    most: float


def replay(changes: Iterable[tuple[str, float]], marks: Sequence[str]) -> tuple[float, ...]:
    """The level at each mark: the sum of all changes at or before it.

    Changes and marks are dated with fixed-width UTC text and may come in any order.
    """
    in_order = sorted(changes, key=lambda change: change[0])
    moments = [moment for moment, _ in in_order]
    levels = [0.0, *accumulate(delta for _, delta in in_order)]
    return tuple(levels[bisect_right(moments, mark)] for mark in marks)


def forecast(
    left: float, weekly: Sequence[float], low: float = 1.0, high: float = 1.0, arriving: Sequence[float] = ()
) -> tuple[Forecast, ...]:
    """What is left now and after each of the weeks to come, `weekly` being what each of them takes and `arriving`
    what each brings. What is lacking is owed, and taken from what comes later.

    `low` and `high` are the slow and the fast pace as a share of the middle one, such as 0.7 and 1.3.
    """
    if not 0 <= low <= high:
        raise ValueError(f"the slow pace {low} must not pass the fast one {high}")
    taken = accumulate(weekly, initial=0.0)
    had = accumulate(arriving or [0.0] * len(weekly), initial=left)
    return tuple(
        Forecast(week, max(0.0, has - sum_), max(0.0, has - high * sum_), max(0.0, has - low * sum_))
        for week, (has, sum_) in enumerate(zip(had, taken, strict=True))
    )
