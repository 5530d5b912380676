import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.jeffreys import beta_quantile, beta_share_up_to, interval

SHARES = st.integers(1, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@given(SHARES)
def test_the_interval_holds_the_share_itself(share: tuple[int, int]) -> None:
    successes, trials = share
    lower, upper = interval(successes, trials)

    assert 0 <= lower <= successes / trials <= upper <= 1
    assert lower < upper


@given(SHARES)
def test_the_interval_of_the_failures_is_the_mirror_image(share: tuple[int, int]) -> None:
    successes, trials = share
    lower, upper = interval(successes, trials)

    assert interval(trials - successes, trials) == pytest.approx((1 - upper, 1 - lower), abs=1e-12)


@given(st.floats(0.001, 0.999), st.floats(0.5, 80), st.floats(0.5, 80))
def test_a_quantile_is_not_passed_in_just_that_share(share: float, a: float, b: float) -> None:
    assert beta_share_up_to(beta_quantile(share, a, b), a, b) == pytest.approx(share, rel=1e-9, abs=1e-12)


def test_beta_of_one_and_one_is_uniform() -> None:
    assert [beta_share_up_to(x, 1, 1) for x in (-1, 0, 0.25, 0.7, 1, 2)] == pytest.approx([0, 0, 0.25, 0.7, 1, 1])


def test_whole_numbers_agree_with_the_binomial_sum() -> None:
    # Beta(2, 3): share up to x is the chance of at least 2 successes of 4 (from memory)
    x = 0.3
    binomial = 6 * x**2 * (1 - x) ** 2 + 4 * x**3 * (1 - x) + x**4

    assert beta_share_up_to(x, 2, 3) == pytest.approx(binomial, rel=1e-13)


def test_more_trials_narrow_the_interval() -> None:
    few, many = interval(3, 30), interval(100, 1000)

    assert many[1] - many[0] < few[1] - few[0]


@pytest.mark.parametrize(("successes", "trials"), [(0, 0), (-1, 5), (6, 5)])
def test_what_is_no_share_is_refused(successes: int, trials: int) -> None:
    with pytest.raises(ValueError, match="is no share"):
        interval(successes, trials)


def test_a_confidence_of_one_is_refused() -> None:
    with pytest.raises(ValueError, match="confidence"):
        interval(1, 2, 1)
