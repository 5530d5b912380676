from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.pace import Pace, hours_by_week, pace, stand_in_hours
from buildlog.methods.weeks import weeks_between

BERLIN = ZoneInfo("Europe/Berlin")
NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)  # a Wednesday
MONDAY = datetime(2026, 11, 22, 23, tzinfo=UTC)  # its week begins at midnight in Berlin


def weekly_runs(hours: list[float]) -> list[tuple[datetime, datetime]]:
    """One run in each full week before NOW, the last one given in the last full week."""
    starts = [MONDAY - timedelta(weeks=number + 1, hours=-30) for number in range(len(hours))]
    return [(start, start + timedelta(hours=each)) for start, each in zip(starts, reversed(hours), strict=True)]


def pace_of(hours: list[float], recorded_weeks: float) -> Pace:
    return pace(weekly_runs(hours), MONDAY - timedelta(weeks=recorded_weeks), NOW, BERLIN, stand_in_hours(2, 0.4))


def test_the_pace_is_the_mean_of_the_last_eight_full_weeks() -> None:
    told = pace_of([100, 10, 20, 30, 40, 50, 60, 70, 80], recorded_weeks=9)

    assert told.hours_per_week == pytest.approx(45)
    assert told.weekly_hours == pytest.approx((10, 20, 30, 40, 50, 60, 70, 80))
    assert not told.usual


def test_the_week_that_runs_does_not_count() -> None:
    runs = [*weekly_runs([40, 40, 40]), (MONDAY, NOW)]

    assert pace(runs, MONDAY - timedelta(weeks=3), NOW, BERLIN, 99).hours_per_week == pytest.approx(40)


def test_the_week_in_which_the_record_begins_does_not_count() -> None:
    assert pace_of([5, 40, 40, 40], recorded_weeks=3.5).weekly_hours == pytest.approx((40, 40, 40))


def test_a_week_without_a_print_counts_as_none() -> None:
    assert pace_of([60, 0, 60], recorded_weeks=3).hours_per_week == pytest.approx(40)


def test_with_fewer_than_three_full_weeks_a_stand_in_is_called_usual() -> None:
    told = pace_of([60, 60], recorded_weeks=2.9)

    assert told.hours_per_week == pytest.approx(168 * 0.6 * 2)
    assert told.usual
    assert told.weekly_hours == ()


def test_weeks_that_differ_give_a_wider_band() -> None:
    steady, uneven = pace_of([40, 40, 40], 3), pace_of([10, 40, 70], 3)

    assert steady.low == pytest.approx(40)
    assert steady.high == pytest.approx(40)
    assert uneven.low < 30 < 45 < uneven.high


def test_a_build_at_rest_has_no_pace() -> None:
    told = pace_of([0, 0, 0], recorded_weeks=3)

    assert (told.hours_per_week, told.low, told.high) == (0, 0, 0)


def test_a_run_over_sunday_night_is_cut_at_midnight_at_home() -> None:
    weeks = weeks_between(MONDAY - timedelta(weeks=1), MONDAY, BERLIN)
    run = (MONDAY - timedelta(hours=3), MONDAY + timedelta(hours=5))

    assert hours_by_week([run], weeks) == pytest.approx((3, 5))


@given(st.lists(st.tuples(st.floats(0, 900), st.floats(0, 300)), max_size=10))
def test_no_hour_is_lost_or_counted_twice(runs: list[tuple[float, float]]) -> None:
    first = MONDAY - timedelta(weeks=8)
    spans = [(first + timedelta(hours=begin), first + timedelta(hours=begin + length)) for begin, length in runs]

    told = hours_by_week(spans, weeks_between(first, MONDAY, BERLIN))

    assert sum(told) == pytest.approx(sum((end - start) / timedelta(hours=1) for start, end in spans), abs=1e-6)


def test_a_share_of_the_week_above_one_is_refused() -> None:
    with pytest.raises(ValueError, match="of the week not for building"):
        stand_in_hours(2, 1.2)
