"""Jeffreys interval of a share: x of n, equal tails of Beta(x + 1/2, n − x + 1/2).

The lower limit is set to 0 at x = 0 and the upper to 1 at x = n. Source: L. D. Brown, T. T. Cai, A. DasGupta,
Interval Estimation for a Binomial Proportion, Statistical Science 16 (2001) 101-133, as told in secondary
texts. The incomplete beta function is summed by its continued fraction (modified Lentz), from memory; the
quantile is found by halving.
"""

import math

_TINY = 1e-300
_FRACTION_STEPS = 10_000
_HALVINGS = 200


def interval(successes: int, trials: int, confidence: float = 0.95) -> tuple[float, float]:
    """Lower and upper limit of the share."""
    if not 0 <= successes <= trials or trials < 1:
        raise ValueError(f"{successes} of {trials} is no share")
    if not 0 < confidence < 1:
        raise ValueError(f"a confidence lies between 0 and 1, not {confidence}")
    tail = (1 - confidence) / 2
    a, b = successes + 0.5, trials - successes + 0.5
    lower = 0.0 if successes == 0 else beta_quantile(tail, a, b)
    upper = 1.0 if successes == trials else 1 - beta_quantile(tail, b, a)
    return lower, upper


def beta_quantile(share: float, a: float, b: float) -> float:
    """The value that a Beta(a, b) variable does not pass in `share` of all cases."""
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if beta_share_up_to(middle, a, b) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def beta_share_up_to(value: float, a: float, b: float) -> float:
    """Regularised incomplete beta function: the share of a Beta(a, b) variable up to `value`."""
    if not (a > 0 and b > 0):
        raise ValueError(f"a beta distribution needs two figures above 0, not {a} and {b}")
    if value <= 0:
        return 0.0
    if value >= 1:
        return 1.0
    if value > (a + 1) / (a + b + 2):  # the fraction converges quickly only below this
        return 1 - beta_share_up_to(1 - value, b, a)
    log_front = (
        a * math.log(value)
        + b * math.log1p(-value)
        + math.lgamma(a + b)
        - math.lgamma(a)
        - math.lgamma(b)
        - math.log(a)
    )
    return math.exp(log_front) * _continued_fraction(value, a, b)


def _continued_fraction(value: float, a: float, b: float) -> float:
    c, d = 1.0, 1 / _away_from_zero(1 - (a + b) * value / (a + 1))
    fraction = d
    for step in range(1, _FRACTION_STEPS):
        even = step * (b - step) * value / ((a + 2 * step - 1) * (a + 2 * step))
        odd = -(a + step) * (a + b + step) * value / ((a + 2 * step) * (a + 2 * step + 1))
        for coefficient in (even, odd):
            d = 1 / _away_from_zero(1 + coefficient * d)
            c = _away_from_zero(1 + coefficient / c)
            fraction *= c * d
        if abs(c * d - 1) < 1e-16:
            return fraction
    raise ValueError(f"the incomplete beta function does not converge for {a} and {b}")


def _away_from_zero(figure: float) -> float:
    return figure if abs(figure) > _TINY else _TINY
