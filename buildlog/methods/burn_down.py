"""What was left at the end of each week, replayed, and what will be left at a pace. Arithmetic."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate
from operator import itemgetter
from typing import NamedTuple


class Forecast(NamedTuple):
    """What is left after so many `weeks` (never below 0): at the pace, at the fast and at the slow end of
    it."""

    weeks: int
    left: float
    least: float
    most: float


def replay(changes: Iterable[tuple[str, float]], marks: Sequence[str]) -> Iterator[tuple[int, int, float]]:
    """The level at the marks, the sum of all changes at or before each, in runs of marks that have the same one: the
    index of the first, the index after the last, the level.

    Changes and marks are dated with fixed-width UTC text; marks come in order, changes in any.
    """
    begin, level = 0, 0.0
    for moment, delta in sorted(changes, key=itemgetter(0)):
        index = bisect_left(marks, moment)
        if index > begin:
            yield begin, index, level
            begin = index
        level += delta
    if begin < len(marks):
        yield begin, len(marks), level


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
