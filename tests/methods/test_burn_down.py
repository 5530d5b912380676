import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.burn_down import forecast, replay

DAYS = st.integers(1, 30)
TAKEN = st.lists(st.floats(0, 500), max_size=20)


def week(number: int) -> str:
    return f"2026-11-{number:02d}T00:00:00Z"


def levels(changes: list[tuple[str, float]], marks: list[str]) -> list[float]:
    return [level for first, after, level in replay(changes, marks) for _ in range(first, after)]


def test_the_level_at_a_mark_holds_all_changes_up_to_it() -> None:
    changes = [(week(9), -30.0), (week(2), 100.0), (week(16), -20.0)]

    assert levels(changes, [week(1), week(2), week(9), week(10), week(23)]) == [0, 100, 70, 70, 50]


@given(st.lists(st.tuples(DAYS, st.integers(-5, 5))), st.lists(DAYS, unique=True))
def test_every_mark_is_in_one_run_and_has_what_was_changed_by_then(
    dated: list[tuple[int, int]], marked: list[int]
) -> None:
    changes, marks = [(week(day), float(delta)) for day, delta in dated], sorted(week(day) for day in marked)

    assert levels(changes, marks) == [sum(delta for at, delta in changes if at <= mark) for mark in marks]


def test_a_late_fact_changes_what_was_left_back_then() -> None:
    changes = [(week(2), 100.0)]
    before = levels(changes, [week(9)])

    assert levels([*changes, (week(3), -40.0)], [week(9)]) != before


def test_a_forecast_begins_now_and_goes_down_to_nothing() -> None:
    told = forecast(100, [40, 40, 40])

    assert [(each.weeks, each.left) for each in told] == [(0, 100), (1, 60), (2, 20), (3, 0)]


def test_the_fast_pace_leaves_least_and_the_slow_one_most() -> None:
    after_two = forecast(100, [40, 40], low=0.5, high=1.2)[2]

    assert (after_two.least, after_two.left, after_two.most) == pytest.approx((4, 20, 60))


@given(st.floats(0, 5000), TAKEN, st.floats(0, 1), st.floats(1, 3))
def test_the_band_holds_the_line_and_only_goes_down(
    left: float, weekly: list[float], low: float, high: float
) -> None:
    told = forecast(left, weekly, low, high)

    assert all(0 <= each.least <= each.left <= each.most <= left for each in told)
    assert [each.left for each in told] == sorted((each.left for each in told), reverse=True)


def test_what_arrives_pays_what_was_lacking() -> None:
    told = forecast(20, [100, 100], low=0.5, high=1.5, arriving=[0, 300])
    assert [(each.least, each.left, each.most) for each in told] == [(20, 20, 20), (0, 0, 0), (20, 120, 220)]


def test_a_slow_pace_above_the_fast_one_is_refused() -> None:
    with pytest.raises(ValueError, match="must not pass the fast one"):
        forecast(100, [10], low=1.2, high=0.8)
