"""What prints really did, shrunk towards what is known anyway.

A cell is one printer with the polymers of one print. Its figures are posterior means: the prior is what the
other cells show (so that no fact counts twice), and the prior of those is the usual number of the trade.

    share of bad starts  Beta(10·p, 10·(1 − p)):     (10·p + bad starts) / (10 + starts)
    failures per hour    Gamma(100·λ, 100 h):        (100·λ + later failures) / (100 + hours run)
    log of real ÷ estimated hours, n of them:        n/(n + 10) · own mean + 10/(n + 10) · prior

p0 is half of the failed prints of the class (about half of all failures fall into the first hour, common
practice), λ0 is 0.005 per hour, the usual ratio is 1.08. The weights 10 starts, 100 hours and 10 ratios are
our choice. Conjugate Beta and Gamma priors: textbook, from memory.

Only what was measured teaches: the caller leaves out a real figure that was taken from the estimate.
Ratios are kept apart by where the estimate came from.
"""

import math
from collections import defaultdict
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

STARTS_WEIGHT = 10.0
HOURS_WEIGHT = 100.0
RATIOS_WEIGHT = 10.0
ENOUGH_OWN_FACTS = 5
USUAL_RATIO_SCATTER = 0.0618
"""Log sd of one print's ratio. With nothing known the ratio then lies between 1.05 and 1.15, the usual range,
in nine cases of ten: 0.0618 · sqrt(1/10 + 1/10) = 0.0276 = ln(1.15/1.05)/(2 · 1.645). Our choice."""


@dataclass(frozen=True, slots=True)
class Prior:
    """What is usual before anything was seen; `failed_share_of_class` (at least 0, below 1) is the share of
    all prints of this class that fails, early or later.
    """

    failed_share_of_class: float
    failures_per_hour: float = 0.005
    ratio: float = 1.08
    bad_start_loss_hours: float = 0.5

    def __post_init__(self) -> None:
        if not 0 <= self.failed_share_of_class < 1:
            raise ValueError(f"a share of failed prints is at least 0 and below 1, not {self.failed_share_of_class}")
        if not (self.failures_per_hour >= 0 and self.ratio > 0 and self.bad_start_loss_hours >= 0):
            raise ValueError(f"usual figures cannot be below 0: {self}")

    @property
    def bad_start_share(self) -> float:
        """About half of all failures fall into the first hour (common practice)."""
        return self.failed_share_of_class / 2


class PrintObservation(NamedTuple):
    """One start of a print. A restart is an observation of its own: the bad start, then the next try.

    `cell` is (printer, polymers); `estimate_origin` where the estimate came from; hours are machine hours.
    `real_hours` is None unless the print came through and its hours were measured.
    `failed_early`: restarted, or failed within the first hour; `failed_later`: any other failure.
    """

    cell: Hashable
    estimate_origin: Hashable
    estimated_hours: float
    real_hours: float | None
    hours_run: float
    failed_early: bool = False
    failed_later: bool = False


class Learned(NamedTuple):
    """The figures of one cell for one origin of estimates, and on how much they rest.

    `starts`, `hours` and `ratios` were measured in this cell, `other_…` in the other cells.
    `ratio_log_sd` is how well the ratio is known, not how much single prints scatter.
    `usual`: all cells together hold fewer than five starts or fewer than five ratios of this origin.
    """

    ratio: float
    ratio_log_sd: float
    bad_start_share: float
    failures_per_hour: float
    bad_start_loss_hours: float
    starts: int
    hours: float
    ratios: int
    usual: bool
    other_starts: int = 0
    other_hours: float = 0.0
    other_ratios: int = 0


@dataclass(slots=True)
class _Outcomes:
    starts: int = 0
    hours: float = 0.0
    bad_starts: int = 0
    bad_start_hours: float = 0.0
    later_failures: int = 0

    def add(self, other: "_Outcomes") -> None:
        self.starts += other.starts
        self.hours += other.hours
        self.bad_starts += other.bad_starts
        self.bad_start_hours += other.bad_start_hours
        self.later_failures += other.later_failures


@dataclass(slots=True)
class _Ratios:
    """Sums of the logarithms of real ÷ estimated hours."""

    count: int = 0
    total: float = 0.0
    squares: float = 0.0

    def add(self, other: "_Ratios") -> None:
        self.count += other.count
        self.total += other.total
        self.squares += other.squares

    def squares_about_mean(self) -> float:
        return max(0.0, self.squares - self.total**2 / self.count) if self.count else 0.0


@dataclass(frozen=True, slots=True)
class Tally:
    """All observations, summed once, so that the figures of each cell cost no further pass."""

    everywhere: _Outcomes
    by_cell: Mapping[Hashable, _Outcomes]
    ratios_by_origin: Mapping[Hashable, _Ratios]
    ratios_by_cell: Mapping[tuple[Hashable, Hashable], _Ratios]
    scatter_by_origin: Mapping[Hashable, float]


def tally(observations: Iterable[PrintObservation]) -> Tally:
    """Sum the observations by cell and by origin of the estimate; ValueError for one that cannot be."""
    by_cell: defaultdict[Hashable, _Outcomes] = defaultdict(_Outcomes)
    by_both: defaultdict[tuple[Hashable, Hashable], _Ratios] = defaultdict(_Ratios)
    for cell, origin, estimated_hours, real_hours, hours_run, failed_early, failed_later in observations:
        if failed_early and failed_later:
            raise ValueError("one start of a print fails once: early or later, not both")
        if not 0 <= hours_run < math.inf:
            raise ValueError(f"the hours run cannot be {hours_run}")
        outcomes = by_cell[cell]
        outcomes.starts += 1
        outcomes.hours += hours_run
        if failed_early:
            outcomes.bad_starts += 1
            outcomes.bad_start_hours += hours_run
        elif failed_later:
            outcomes.later_failures += 1
        if real_hours is not None:
            if not (0 < real_hours < math.inf and estimated_hours > 0):
                raise ValueError(f"no ratio of {real_hours} real to {estimated_hours} estimated hours")
            log_ratio = math.log(real_hours / estimated_hours)
            ratios = by_both[cell, origin]
            ratios.count += 1
            ratios.total += log_ratio
            ratios.squares += log_ratio * log_ratio
    everywhere = _Outcomes()
    for outcomes in by_cell.values():
        everywhere.add(outcomes)
    by_origin: defaultdict[Hashable, _Ratios] = defaultdict(_Ratios)
    for (_, origin), ratios in by_both.items():
        by_origin[origin].add(ratios)
    return Tally(everywhere, dict(by_cell), dict(by_origin), dict(by_both), _scatter(by_both))


def learn(known: Tally, cell: Hashable, estimate_origin: Hashable, prior: Prior) -> Learned:
    """The figures of one cell, for estimates of one origin."""
    own, everywhere = known.by_cell.get(cell, _Outcomes()), known.everywhere
    other_starts = everywhere.starts - own.starts
    other_hours = max(0.0, everywhere.hours - own.hours)
    share = _shrunk(prior.bad_start_share, STARTS_WEIGHT, everywhere.bad_starts - own.bad_starts, other_starts)
    other_failures = everywhere.later_failures - own.later_failures
    rate = _shrunk(prior.failures_per_hour, HOURS_WEIGHT, other_failures, other_hours)
    ratios = known.ratios_by_cell.get((cell, estimate_origin), _Ratios())
    all_ratios = known.ratios_by_origin.get(estimate_origin, _Ratios())
    scatter = known.scatter_by_origin.get(estimate_origin, USUAL_RATIO_SCATTER)
    log_ratio, log_sd = _log_ratio(ratios, all_ratios, math.log(prior.ratio), scatter)
    return Learned(
        ratio=math.exp(log_ratio),
        ratio_log_sd=log_sd,
        bad_start_share=_shrunk(share, STARTS_WEIGHT, own.bad_starts, own.starts),
        failures_per_hour=_shrunk(rate, HOURS_WEIGHT, own.later_failures, own.hours),
        bad_start_loss_hours=_bad_start_loss(own, everywhere, prior.bad_start_loss_hours),
        starts=own.starts,
        hours=own.hours,
        ratios=ratios.count,
        usual=min(everywhere.starts, all_ratios.count) < ENOUGH_OWN_FACTS,
        other_starts=other_starts,
        other_hours=other_hours,
        other_ratios=all_ratios.count - ratios.count,
    )


def _shrunk(prior: float, weight: float, total: float, count: float) -> float:
    """Posterior mean of a share, a rate or a mean: the prior counts like `weight` facts."""
    return (weight * prior + total) / (weight + count)


def _log_ratio(own: _Ratios, everywhere: _Ratios, usual: float, scatter: float) -> tuple[float, float]:
    """Posterior mean and sd of the log ratio of a cell, `scatter` being the log sd of one print."""
    others = everywhere.count - own.count
    prior = _shrunk(usual, RATIOS_WEIGHT, everywhere.total - own.total, others)
    share_of_prior = RATIOS_WEIGHT / (RATIOS_WEIGHT + own.count)
    variance = 1 / (RATIOS_WEIGHT + own.count) + share_of_prior**2 / (RATIOS_WEIGHT + others)
    return _shrunk(prior, RATIOS_WEIGHT, own.total, own.count), scatter * math.sqrt(variance)


def _scatter(by_both: Mapping[tuple[Hashable, Hashable], _Ratios]) -> dict[Hashable, float]:
    """Log sd of single ratios about the mean of their cell, by origin; the usual scatter counts like ten."""
    squares: defaultdict[Hashable, float] = defaultdict(float)
    freedoms: defaultdict[Hashable, int] = defaultdict(int)
    for (_, origin), ratios in by_both.items():
        squares[origin] += ratios.squares_about_mean()
        freedoms[origin] += ratios.count - 1
    return {
        origin: math.sqrt(_shrunk(USUAL_RATIO_SCATTER**2, RATIOS_WEIGHT, squares[origin], freedoms[origin]))
        for origin in squares
    }


def _bad_start_loss(own: _Outcomes, everywhere: _Outcomes, usual_hours: float) -> float:
    """Mean hours lost in a bad start: of this cell, else of all, once five were seen; else the usual."""
    for seen in (own, everywhere):
        if seen.bad_starts >= ENOUGH_OWN_FACTS:
            return seen.bad_start_hours / seen.bad_starts
    return usual_hours
