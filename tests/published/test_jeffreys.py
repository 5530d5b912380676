"""Jeffreys limits (95 %, equal tails) against published results."""

import pytest

from buildlog.methods.jeffreys import interval


@pytest.mark.parametrize(
    ("successes", "trials", "lower", "upper"),
    [(18, 20, 0.716146742695748, 0.97862751197755), (4, 20, 0.07152005247873, 0.40822576251693)],
)
def test_limits_of_an_r_package(successes: int, trials: int, lower: float, upper: float) -> None:
    # as read in statsmodels 0.15.0, results_proportion.py: R package binom, method «bayes»
    assert interval(successes, trials) == pytest.approx((lower, upper), abs=1e-12)


def test_limits_of_one_half() -> None:
    # as read in statsmodels test_proportion.py: R package DescTools, BinomCI, seven digits
    assert interval(100, 200) == pytest.approx((0.4311217, 0.5688783), abs=5e-8)


@pytest.mark.parametrize(
    ("successes", "trials", "lower", "upper"),
    [
        (0, 10, 0, 0.2171963),
        (10, 10, 0.7828037, 1),
        (5, 10, 0.2235287, 0.7764713),
        (0, 30, 0, 0.0796782),
        (30, 30, 0.9203218, 1),
    ],
)
def test_limits_at_the_edges(successes: int, trials: int, lower: float, upper: float) -> None:
    # convention (0 at none, 1 at all) of Brown, Cai, DasGupta, Statistical Science 16 (2001) 101, as read in
    # a secondary text; figures computed by us
    assert interval(successes, trials) == pytest.approx((lower, upper), abs=5e-8)
