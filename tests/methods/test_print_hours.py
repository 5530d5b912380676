import math
import random
import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.print_hours import (
    Failures,
    expected_hours,
    expected_hours_left,
    spread,
    variance_hours,
    variance_hours_left,
)

HOURLY = Failures(per_hour=0.01)
BOTH = Failures(per_hour=0.01, bad_start_share=0.05, bad_start_hours=0.5)


def print_once(
    generator: random.Random, hours: float, failures: Failures, first_try_hours: float | None = None
) -> float:
    """Machine hours of one print as it could go until it came through (running: `first_try_hours` left)."""
    spent = 0.0
    to_run = first_try_hours
    while True:
        if to_run is None:
            while generator.random() < failures.bad_start_share:
                spent += failures.bad_start_hours
            to_run = hours
        fails_after = generator.expovariate(failures.per_hour)
        if fails_after >= to_run:
            return spent + to_run
        spent += fails_after
        to_run = None


def test_twenty_hours_at_one_failure_in_a_hundred_hours_take_22_14() -> None:
    assert expected_hours(20, HOURLY) == pytest.approx(22.14, abs=0.005)


def test_five_percent_bad_starts_of_half_an_hour_make_it_22_17() -> None:
    assert expected_hours(20, BOTH) == pytest.approx(22.17, abs=0.005)


@pytest.mark.parametrize("failures", [HOURLY, BOTH])
def test_eight_hours_left_of_that_print_take_9_39(failures: Failures) -> None:
    assert expected_hours_left(8, 20, failures) == pytest.approx(9.39, abs=0.005)


def test_a_running_print_that_fails_has_to_start_again_bad_starts_included() -> None:
    assert expected_hours_left(8, 20, BOTH) > expected_hours_left(8, 20, HOURLY)


def test_without_failures_in_the_run_only_bad_starts_are_added() -> None:
    assert expected_hours(20, Failures(0, 0.2, 0.5)) == pytest.approx(20 + 0.25 * 0.5)
    assert expected_hours_left(8, 20, Failures(0, 0.2, 0.5)) == 8


def test_a_print_past_its_end_has_nothing_left() -> None:
    assert expected_hours_left(-3, 20, BOTH) == 0
    assert variance_hours_left(-3, 20, BOTH) == 0


@given(st.floats(0.1, 200), st.floats(0, 0.5), st.floats(0, 2))
def test_a_vanishing_rate_meets_the_formula_without_a_rate(hours: float, share: float, loss: float) -> None:
    nearly = Failures(1e-13, share, loss)
    never = Failures(0, share, loss)

    assert expected_hours(hours, nearly) == pytest.approx(expected_hours(hours, never), rel=1e-9)
    assert variance_hours(hours, nearly) == pytest.approx(variance_hours(hours, never), rel=1e-6, abs=1e-6)
    assert expected_hours_left(hours / 2, hours, nearly) == pytest.approx(hours / 2, rel=1e-9)


@given(st.floats(0.5, 100), st.floats(0.0001, 0.03))
def test_variance_without_bad_starts_has_its_closed_form(hours: float, rate: float) -> None:
    # Var = (e^(2x) − 1 − 2x·e^x)/λ², x = λT: by the Laplace transform of the print, computed by us
    x = rate * hours
    if x < 0.05:
        closed = hours**2 * x * (1 / 3 + x / 3 + 11 * x**2 / 60)
        assert variance_hours(hours, Failures(rate)) == pytest.approx(closed, rel=1e-4)
    else:
        closed = (math.expm1(2 * x) - 2 * x * math.exp(x)) / rate**2
        assert variance_hours(hours, Failures(rate)) == pytest.approx(closed, rel=1e-8)


@pytest.mark.parametrize("x", [0.00999, 0.01001])
def test_series_and_closed_form_meet_where_one_takes_over(x: float) -> None:
    assert variance_hours(1, Failures(x)) == pytest.approx(x * (1 / 3 + x / 3 + 11 * x**2 / 60), rel=1e-6)


def test_mean_and_variance_agree_with_a_simulation() -> None:
    failures = Failures(per_hour=0.03, bad_start_share=0.15, bad_start_hours=0.5)
    generator = random.Random(20261125)
    trials = [print_once(generator, 20, failures) for _ in range(40_000)]

    standard_error = statistics.stdev(trials) / math.sqrt(len(trials))
    assert expected_hours(20, failures) == pytest.approx(statistics.fmean(trials), abs=4 * standard_error)
    assert variance_hours(20, failures) == pytest.approx(statistics.variance(trials), rel=0.04)


def test_mean_and_variance_of_what_is_left_agree_with_a_simulation() -> None:
    failures = Failures(per_hour=0.03, bad_start_share=0.15, bad_start_hours=0.5)
    generator = random.Random(20261126)
    trials = [print_once(generator, 20, failures, first_try_hours=8) for _ in range(40_000)]

    standard_error = statistics.stdev(trials) / math.sqrt(len(trials))
    mean = statistics.fmean(trials)
    assert expected_hours_left(8, 20, failures) == pytest.approx(mean, abs=4 * standard_error)
    assert variance_hours_left(8, 20, failures) == pytest.approx(statistics.variance(trials), rel=0.04)


def test_low_and_high_of_many_prints_agree_with_a_simulation() -> None:
    generator = random.Random(20261127)
    hours = [4.0, 9.0, 20.0, 14.0, 6.0, 11.0, 8.0, 17.0]
    sums = sorted(
        generator.lognormvariate(-(0.1**2) / 2, 0.1) * sum(print_once(generator, each, BOTH) for each in hours)
        for _ in range(10_000)
    )

    told = spread([expected_hours(h, BOTH) for h in hours], [variance_hours(h, BOTH) for h in hours], 0.1)

    assert told.mean == pytest.approx(statistics.fmean(sums), rel=0.01)
    assert told.low == pytest.approx(sums[2_000], rel=0.02)
    assert told.high == pytest.approx(sums[8_000], rel=0.02)


def test_the_common_ratio_does_not_average_out_over_many_prints() -> None:
    few = spread([10.0] * 4, [1.0] * 4, 0.1)
    many = spread([10.0] * 400, [1.0] * 400, 0.1)

    assert (many.high - many.low) / many.mean == pytest.approx(0.168, abs=0.002)
    assert (few.high - few.low) / few.mean > (many.high - many.low) / many.mean


def test_nothing_to_print_has_no_spread() -> None:
    told = spread([], [], 0.1)

    assert (told.mean, told.low, told.high) == (0, 0, 0)


def test_a_print_that_would_never_come_through_is_refused_with_advice() -> None:
    with pytest.raises(ValueError, match="never comes through: split it"):
        expected_hours(50_000, HOURLY)


@pytest.mark.parametrize("wrong", [-1, math.nan, math.inf])
def test_hours_that_cannot_be_are_refused(wrong: float) -> None:
    with pytest.raises(ValueError, match="hours of a print cannot be"):
        expected_hours(wrong, HOURLY)


@pytest.mark.parametrize("wrong", [{"per_hour": -1}, {"bad_start_share": 1}, {"bad_start_hours": -0.1}])
def test_failure_figures_that_cannot_be_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(ValueError, match=r"failures per hour|share of bad starts|hours lost in a bad start"):
        Failures(**wrong)
