"""The log-normal distribution that has a given mean and variance, and its quantiles.

If ln X is normal with mean mu and standard deviation sigma, then
mean = exp(mu + sigma²/2) and variance = mean² · (exp(sigma²) − 1); solved for mu and sigma by moments.
Source: textbook relations of the log-normal distribution, from memory.
"""

import math
from statistics import NormalDist
from typing import NamedTuple

_STANDARD_NORMAL = NormalDist()


class LogNormal(NamedTuple):
    """mu and sigma are the mean and the standard deviation of the natural logarithm."""

    mu: float
    sigma: float

    def mean(self) -> float:
        return math.exp(self.mu + self.sigma**2 / 2)

    def variance(self) -> float:
        return self.mean() ** 2 * math.expm1(self.sigma**2)

    def quantile(self, share: float) -> float:
        """The value that is not passed in `share` of all cases, 0 < share < 1."""
        if not 0 < share < 1:
            raise ValueError(f"a quantile needs a share between 0 and 1, not {share}")
        return math.exp(self.mu + self.sigma * _STANDARD_NORMAL.inv_cdf(share))

    def share_up_to(self, value: float) -> float:
        """The share of all cases that does not pass `value`."""
        if value <= 0:
            return 0.0
        if self.sigma == 0:
            return 1.0 if math.log(value) >= self.mu else 0.0
        return _STANDARD_NORMAL.cdf((math.log(value) - self.mu) / self.sigma)


def matched(mean: float, variance: float) -> LogNormal:
    """The log-normal with this mean (above 0) and variance (0 or more)."""
    if not mean > 0:
        raise ValueError(f"a log-normal needs a mean above 0, not {mean}")
    if not variance >= 0:
        raise ValueError(f"a variance cannot be below 0, not {variance}")
    sigma_squared = math.log1p(variance / mean / mean)
    return LogNormal(math.log(mean) - sigma_squared / 2, math.sqrt(sigma_squared))


def quantiles(mean: float, variance: float, *shares: float) -> tuple[float, ...]:
    """Quantiles of the log-normal with this mean and variance; nothing left (mean 0) stays nothing."""
    if mean == 0:
        return tuple(0.0 for _ in shares)
    distribution = matched(mean, variance)
    return tuple(distribution.quantile(share) for share in shares)
