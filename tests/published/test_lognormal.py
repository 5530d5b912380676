"""The log-normal distribution against published moments."""

import math

import pytest

from buildlog.methods.lognormal import LogNormal, matched


def test_moments_of_the_standard_log_normal() -> None:
    # as read in the tests of R package DescTools (mlnorm prints 1.65 and 4.67), more digits computed by us
    standard = LogNormal(0, 1)

    assert standard.mean() == pytest.approx(1.65, abs=0.005)
    assert standard.variance() == pytest.approx(4.67, abs=0.005)
    assert (standard.mean(), standard.variance()) == pytest.approx((1.6487212707, 4.6707742705), abs=5e-11)
    assert standard.quantile(0.5) == pytest.approx(1)


def test_moments_and_share_of_a_narrow_one() -> None:
    # computed by us in decimal arithmetic
    narrow = LogNormal(0, 0.25)

    assert (narrow.mean(), narrow.variance()) == pytest.approx((1.0317434075, 0.0686539941), abs=5e-11)
    assert narrow.share_up_to(1.5) == pytest.approx(0.9475834, abs=5e-8)


def test_parameters_from_mean_and_deviation_of_one() -> None:
    # formula as read in resources.facilia.se, log-normal distribution; figures computed by us
    match = matched(1, 1)

    assert (match.mu, match.sigma) == pytest.approx((-0.3465735903, 0.8325546112), abs=5e-11)
    assert match.sigma == pytest.approx(math.sqrt(math.log(2)))
