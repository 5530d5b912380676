import math
import random
import statistics
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.learned import Learned, PrintObservation, Prior, learn, tally

HERE = ("north", "ABS")
THERE = ("south", "TPU")


def came_through(
    cell: object = HERE, ratio: float = 1.2, hours: float = 10, origin: str = "slicer"
) -> PrintObservation:
    return PrintObservation(cell, origin, hours / ratio, hours, hours)


def bad_start(cell: object = HERE, hours: float = 0.2) -> PrintObservation:
    return PrintObservation(cell, "slicer", 10, None, hours, failed_early=True)


def failed_later(cell: object = HERE, hours: float = 6) -> PrintObservation:
    return PrintObservation(cell, "slicer", 10, None, hours, failed_later=True)


def figures(*seen: PrintObservation, cell: object = HERE, origin: str = "slicer", failed: float = 0.12) -> Learned:
    return learn(tally(seen), cell, origin, Prior(failed))


def test_with_nothing_seen_the_usual_numbers_stand_and_say_so() -> None:
    usual = figures()

    assert usual.ratio == pytest.approx(1.08)
    assert usual.bad_start_share == pytest.approx(0.06)  # half of the failed prints of the class
    assert usual.failures_per_hour == pytest.approx(0.005)
    assert usual.bad_start_loss_hours == 0.5
    assert (usual.starts, usual.hours, usual.ratios, usual.usual) == (0, 0, 0, True)


def test_with_nothing_seen_the_ratio_lies_in_the_usual_range_in_nine_cases_of_ten() -> None:
    half_width = statistics.NormalDist(0, figures().ratio_log_sd).inv_cdf(0.95)

    assert 2 * half_width == pytest.approx(math.log(1.15 / 1.05), rel=0.01)


def test_ten_starts_weigh_as_much_as_the_prior() -> None:
    seen = [came_through()] * 6 + [bad_start()] * 4

    assert figures(*seen).bad_start_share == pytest.approx((0.06 + 0.4) / 2)


def test_a_hundred_hours_weigh_as_much_as_the_prior() -> None:
    seen = [came_through(hours=23.5)] * 4 + [failed_later(hours=6)]

    assert figures(*seen).failures_per_hour == pytest.approx((0.5 + 1) / 200)


def test_ten_ratios_weigh_as_much_as_the_prior() -> None:
    assert figures(*[came_through(ratio=1.3)] * 10).ratio == pytest.approx(math.sqrt(1.08 * 1.3))


def test_a_new_cell_takes_what_the_other_cells_show() -> None:
    seen = [came_through(THERE, ratio=1.3)] * 10

    new = figures(*seen, cell=HERE)

    assert new.ratio == pytest.approx(math.sqrt(1.08 * 1.3))
    assert (new.ratios, new.other_ratios, new.starts, new.other_starts) == (0, 10, 0, 10)


def test_an_own_fact_counts_once_and_not_again_through_the_pool() -> None:
    seen = [came_through(HERE, ratio=1.3)] * 10

    assert figures(*seen, cell=HERE).ratio == figures(*seen, cell=THERE).ratio


def test_own_facts_outweigh_those_of_other_cells() -> None:
    seen = [came_through(HERE, ratio=1.0)] * 30 + [came_through(THERE, ratio=1.4)] * 30

    assert figures(*seen, cell=HERE).ratio < 1.12
    assert figures(*seen, cell=THERE).ratio > 1.25


def test_ratios_are_kept_apart_by_where_the_estimate_came_from() -> None:
    seen = [came_through(ratio=1.5, origin="guess")] * 50

    assert figures(*seen, origin="slicer").ratio == pytest.approx(1.08)
    assert figures(*seen, origin="guess").ratio > 1.4


def test_starts_and_hours_teach_whatever_the_estimate_came_from() -> None:
    seen = [came_through(origin="guess", hours=10)] * 8

    told = figures(*seen, origin="slicer")

    assert (told.starts, told.hours, told.ratios) == (8, 80, 0)


def test_usual_numbers_are_called_usual_until_five_own_facts() -> None:
    assert figures(*[came_through()] * 4).usual
    assert not figures(*[came_through()] * 5).usual


def test_five_failures_without_a_ratio_leave_the_ratio_usual() -> None:
    assert figures(*[failed_later()] * 5).usual


def test_the_mean_loss_of_a_bad_start_is_usual_until_five_were_seen() -> None:
    assert figures(*[bad_start(hours=0.2)] * 4).bad_start_loss_hours == 0.5
    assert figures(*[bad_start(hours=0.2)] * 5).bad_start_loss_hours == pytest.approx(0.2)


def test_a_cell_with_few_bad_starts_takes_the_mean_loss_of_all() -> None:
    seen = [bad_start(HERE, 0.8)] + [bad_start(THERE, 0.2)] * 5

    assert figures(*seen, cell=HERE).bad_start_loss_hours == pytest.approx(0.3)


def test_figures_come_near_the_truth_after_many_prints() -> None:
    generator = random.Random(7)
    seen = []
    for _ in range(3000):
        if generator.random() < 0.08:
            seen.append(bad_start(hours=0.4))
            continue
        hours = generator.uniform(2, 20)
        fails_after = generator.expovariate(0.012)
        seen.append(failed_later(hours=fails_after) if fails_after < hours else came_through(ratio=1.13, hours=hours))

    told = figures(*seen)

    assert told.bad_start_share == pytest.approx(0.08, abs=0.01)
    assert told.failures_per_hour == pytest.approx(0.012, rel=0.1)
    assert told.ratio == pytest.approx(1.13, abs=0.002)
    assert told.ratio_log_sd < 0.002


@given(st.lists(st.sampled_from([came_through, bad_start, failed_later]), max_size=40))
def test_figures_stay_between_prior_and_what_was_seen(kinds: list[Callable[[], PrintObservation]]) -> None:
    seen = [kind() for kind in kinds]
    told = figures(*seen)

    own_share = sum(each.failed_early for each in seen) / max(1, len(seen))
    assert min(0.06, own_share) - 1e-12 <= told.bad_start_share <= max(0.06, own_share) + 1e-12
    assert told.failures_per_hour > 0
    assert 1.08 - 1e-12 <= told.ratio < 1.2
    assert told.ratio_log_sd > 0


def test_ratios_that_scatter_more_are_known_less_well() -> None:
    steady = figures(*[came_through(ratio=1.2)] * 20)
    scattered = figures(*[came_through(ratio=0.9), came_through(ratio=1.6)] * 10)

    assert scattered.ratio_log_sd > 2 * steady.ratio_log_sd


@given(st.lists(st.floats(0.7, 1.8), min_size=1, max_size=30))
def test_more_of_the_same_ratios_make_the_ratio_better_known_in_the_end(ratios: list[float]) -> None:
    once = figures(*[came_through(ratio=each) for each in ratios])
    often = figures(*[came_through(ratio=each) for each in ratios * 100])

    assert often.ratio_log_sd < once.ratio_log_sd
    assert often.ratios == 100 * once.ratios


def test_other_usual_figures_can_stand_in() -> None:
    told = learn(tally([]), HERE, "slicer", Prior(0.2, failures_per_hour=0.01, ratio=1.0, bad_start_loss_hours=0.3))

    assert (told.ratio, told.bad_start_share, told.failures_per_hour) == pytest.approx((1.0, 0.1, 0.01))
    assert told.bad_start_loss_hours == 0.3


def test_usual_figures_below_zero_are_refused() -> None:
    with pytest.raises(ValueError, match="cannot be below 0"):
        Prior(0.1, failures_per_hour=-1)


@pytest.mark.parametrize(
    "wrong",
    [
        {"failed_early": True, "failed_later": True},
        {"hours_run": -1},
        {"real_hours": 0.0},
        {"estimated_hours": 0.0},
    ],
)
def test_an_observation_that_cannot_be_is_refused(wrong: dict[str, float | bool]) -> None:
    right = {"estimated_hours": 5.0, "real_hours": 6.0, "hours_run": 6.0}

    with pytest.raises(ValueError, match=r"fails once|hours run cannot be|no ratio of"):
        tally([PrintObservation(HERE, "slicer", **{**right, **wrong})])


@pytest.mark.parametrize("share", [-0.1, 1, math.nan])
def test_a_class_cannot_fail_always_or_less_than_never(share: float) -> None:
    with pytest.raises(ValueError, match="share of failed prints"):
        Prior(share)
