"""The normal quantiles that the methods take from the standard library."""

from statistics import NormalDist

import pytest


@pytest.mark.parametrize(
    ("share", "quantile"),
    [
        (0.80, 0.8416212335729143),
        (0.90, 1.2815515655446004),
        (0.95, 1.6448536269514722),
        (0.97, 1.8807936081512509),
        (0.975, 1.959963984540054),
        (0.98, 2.0537489106318225),
        (0.99, 2.3263478740408408),
        (0.995, 2.5758293035489004),
        (0.999, 3.090232306167813),
    ],
)
def test_quantiles_agree_with_scipy(share: float, quantile: float) -> None:
    # computed with scipy's norm.ppf
    assert NormalDist().inv_cdf(share) == pytest.approx(quantile, rel=1e-14)


@pytest.mark.parametrize(("share", "quantile"), [(0.25, -0.6744897501960817), (0.001, -3.090232306167814)])
def test_quantiles_agree_with_the_test_values_of_as_241(share: float, quantile: float) -> None:
    # M. J. Wichura, Algorithm AS 241, Applied Statistics 37 (1988) 477-484, as read in several test suites
    assert NormalDist().inv_cdf(share) == pytest.approx(quantile, rel=1e-15)
