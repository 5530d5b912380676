import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods import lognormal


@given(st.floats(0.01, 1e6), st.floats(0, 10))
def test_a_match_has_the_mean_and_the_variance_asked_for(mean: float, relative_sd: float) -> None:
    variance = (relative_sd * mean) ** 2

    match = lognormal.matched(mean, variance)

    assert match.mean() == pytest.approx(mean)
    assert match.variance() == pytest.approx(variance, rel=1e-6, abs=1e-9 * mean**2)


@given(st.floats(0.1, 1000), st.floats(0.01, 3), st.floats(0.01, 0.99))
def test_a_quantile_is_not_passed_in_just_that_share(mean: float, relative_sd: float, share: float) -> None:
    match = lognormal.matched(mean, (relative_sd * mean) ** 2)

    assert match.share_up_to(match.quantile(share)) == pytest.approx(share)


def test_without_variance_every_quantile_is_the_mean() -> None:
    assert lognormal.quantiles(12.5, 0, 0.2, 0.8) == pytest.approx((12.5, 12.5))


def test_without_variance_the_share_jumps_at_the_value() -> None:
    match = lognormal.matched(1, 0)

    assert [match.share_up_to(value) for value in (-1, 0, 0.9, 1, 2)] == [0, 0, 0, 1, 1]


def test_nothing_left_stays_nothing() -> None:
    assert lognormal.quantiles(0, 0, 0.2, 0.8) == (0, 0)


@pytest.mark.parametrize(("mean", "variance"), [(-1, 1), (math.nan, 1), (1, -1), (1, math.nan)])
def test_a_mean_or_variance_that_cannot_be_is_refused(mean: float, variance: float) -> None:
    with pytest.raises(ValueError, match=r"mean above 0|variance cannot be below 0"):
        lognormal.quantiles(mean, variance, 0.5)


@pytest.mark.parametrize("share", [0, 1, -0.1, 1.1])
def test_a_share_outside_0_to_1_has_no_quantile(share: float) -> None:
    with pytest.raises(ValueError, match="share between 0 and 1"):
        lognormal.matched(1, 1).quantile(share)
