"""How many hours a print really takes until a good one lies on the bed.

Model. A print that needs T hours (estimate × learned ratio) is tried until it comes through. Before each try
lie bad starts, each with chance p and t0 hours lost; a try then fails at the constant rate λ per hour and is
begun again from nothing. So the number of failed tries is geometric with chance of success exp(−λT), and

    expected(T) = (e^(λT) − 1)/λ + p·t0·e^(λT)/(1 − p)         at λ = 0:  T + p·t0/(1 − p)

A print that runs with R hours left fails before its end with chance 1 − e^(−λR); then what it still runs is
lost and the whole print is due again, bad starts included:

    remaining(R, T) = (1 − e^(−λR)) · (1/λ + expected(T))       at λ = 0:  R

Both readings of expected(T) there, with bad starts and without, give 9.39 h for the anchor of 8 h left of a
20 h print at λ = 0.01/h (9.393 and 9.391); the one with bad starts is taken, since the new print has to start
too.

Source: restart with exponential failures is a textbook renewal argument (geometric number of tries, truncated
exponential lengths), from memory; the variances are derived here by the law of total variance and are held by
a simulation in the tests. A bad start is taken to cost exactly t0.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from buildlog.methods import lognormal

_LARGEST_EXPONENT = 300.0
"""Beyond e^300 tries a print never comes through; squares of larger values leave the range of a float."""
_SMALL = 1e-2
"""Below this λT differences of nearly equal numbers lose digits, and the series takes over."""


@dataclass(frozen=True, slots=True)
class Failures:
    """How prints fail: `per_hour` (λ), `bad_start_share` (p, below 1), `bad_start_hours` (t0)."""

    per_hour: float = 0.0
    bad_start_share: float = 0.0
    bad_start_hours: float = 0.0

    def __post_init__(self) -> None:
        if not 0 <= self.per_hour < math.inf:
            raise ValueError(f"failures per hour cannot be {self.per_hour}")
        if not 0 <= self.bad_start_share < 1:
            raise ValueError(f"a share of bad starts is at least 0 and below 1, not {self.bad_start_share}")
        if not 0 <= self.bad_start_hours < math.inf:
            raise ValueError(f"the hours lost in a bad start cannot be {self.bad_start_hours}")

    @property
    def bad_starts_before_a_try(self) -> float:
        return self.bad_start_share / (1 - self.bad_start_share)


class Spread(NamedTuple):
    """Hours: the mean, and the two values between which it will probably lie."""

    mean: float
    low: float
    high: float


def expected_hours(hours: float, failures: Failures) -> float:
    """Mean hours of machine time until a print of `hours` came through once."""
    failed_tries = math.expm1(_exponent(hours, failures))
    tries_hours = hours if failures.per_hour == 0 else failed_tries / failures.per_hour
    return tries_hours + failures.bad_starts_before_a_try * failures.bad_start_hours * (1 + failed_tries)


def variance_hours(hours: float, failures: Failures) -> float:
    """Variance (h²) of the machine time until a print of `hours` came through once.

    W = T + t0·B0 + Σ over K failed tries (X + t0·B), with K geometric (mean k = e^(λT) − 1, variance k(k +
    1)), X the length of a failed try and B the bad starts before it (variance p/(1 − p)²): Var W = t0²·Var B
    + k·Var(X + t0·B) + k(k + 1)·(mean of X + t0·B)².
    """
    failed_tries = math.expm1(_exponent(hours, failures))
    length, length_variance = _failed_try(hours, failures.per_hour)
    bad_starts_variance = failures.bad_start_hours**2 * failures.bad_start_share / (1 - failures.bad_start_share) ** 2
    lost = length + failures.bad_start_hours * failures.bad_starts_before_a_try
    return (
        bad_starts_variance
        + failed_tries * (length_variance + bad_starts_variance)
        + failed_tries * (failed_tries + 1) * lost**2
    )


def expected_hours_left(hours_left: float, hours: float, failures: Failures) -> float:
    """Mean hours still to run for a print of `hours` that runs now and has `hours_left`.

    Past its end (hours_left below 0) nothing is left.
    """
    left = max(0.0, hours_left)
    if failures.per_hour == 0:
        return left
    fails = -math.expm1(-_exponent(left, failures))
    return fails / failures.per_hour + fails * expected_hours(hours, failures)


def variance_hours_left(hours_left: float, hours: float, failures: Failures) -> float:
    """Variance (h²) of the hours still to run.

    With f = 1 − e^(−λR) the chance that it fails before its end, X the time until then and W the hours of the
    new print: f·(Var X + Var W) + f(1 − f)·(mean X + mean W − R)².
    """
    left = max(0.0, hours_left)
    if left == 0 or failures.per_hour == 0:
        return 0.0
    fails = -math.expm1(-_exponent(left, failures))
    until, until_variance = _failed_try(left, failures.per_hour)
    again = expected_hours(hours, failures)
    lost = until_variance + variance_hours(hours, failures)
    return fails * lost + fails * (1 - fails) * (until + again - left) ** 2


def spread(
    means: Iterable[float],
    variances: Iterable[float],
    ratio_log_sd: float,
    low: float = 0.2,
    high: float = 0.8,
) -> Spread:
    """Low and high of a sum of independent prints, from a log-normal matched to its mean and variance.

    All prints share one factor of mean 1 (the ratio of real to estimated hours is known only so well), whose
    logarithm has the standard deviation `ratio_log_sd`. With M and V the summed means and variances the
    variance is e^(s²)·(V + M²) − M². That a longer print also fails more often is left out of the common
    factor.
    """
    mean = math.fsum(means)
    own = math.fsum(variances)
    common = math.expm1(ratio_log_sd**2)
    low_hours, high_hours = lognormal.quantiles(mean, own + common * (own + mean**2), low, high)
    return Spread(mean, low_hours, high_hours)


def _exponent(hours: float, failures: Failures) -> float:
    if not 0 <= hours < math.inf:
        raise ValueError(f"the hours of a print cannot be {hours}")
    exponent = failures.per_hour * hours
    if exponent > _LARGEST_EXPONENT:
        raise ValueError(
            f"a print of {hours:g} h at {failures.per_hour:g} failures per hour never comes through: split it"
        )
    return exponent


def _failed_try(hours: float, per_hour: float) -> tuple[float, float]:
    """Mean (h) and variance (h²) of an exponential time, given that it ended before `hours`.

    With x = λT: mean T·(1/x − 1/(e^x − 1)), variance T²·(1/x² − 1/(4·sinh²(x/2))).
    """
    x = per_hour * hours
    if x < _SMALL:
        return hours * (1 / 2 - x / 12 + x**3 / 720), hours**2 * (1 / 12 - x**2 / 240 + x**4 / 6048)
    return hours * (1 / x - 1 / math.expm1(x)), hours**2 * (1 / x**2 - 1 / (4 * math.sinh(x / 2) ** 2))
