"""A stock drawn evenly, with parcels in between: small examples by hand, and what must hold of any."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.depletion import empty_after

AMOUNTS = st.integers(0, 2000)
WEEKS = st.lists(AMOUNTS, max_size=6)


def test_a_parcel_at_the_end_of_a_week_does_not_fill_its_beginning() -> None:
    """20 g at 100 g a week are gone after a fifth of the first; the parcel comes after four fifths."""
    assert empty_after(20, [100, 100], [(0.8, 1000)]) == pytest.approx(0.2)


def test_a_parcel_in_time_leaves_no_gap() -> None:
    assert empty_after(90, [100, 100], [(0.8, 110)]) is None


def test_what_is_just_enough_is_never_empty() -> None:
    assert empty_after(200, [100, 100]) is None


def test_without_parcels_it_is_empty_where_the_amounts_add_up() -> None:
    assert empty_after(250, [100, 100, 100]) == pytest.approx(2.5)


def test_nothing_on_hand_is_empty_when_something_is_first_asked_for() -> None:
    assert empty_after(0, [0, 100]) == 1


@given(AMOUNTS, WEEKS)
def test_without_parcels_it_is_empty_exactly_when_more_is_asked_for_than_there_is(
    on_hand: int, weekly: list[int]
) -> None:
    assert (empty_after(on_hand, weekly) is not None) == (sum(weekly) > on_hand)


@given(AMOUNTS, WEEKS, st.lists(st.tuples(st.floats(0, 7), AMOUNTS), max_size=4))
def test_a_parcel_never_brings_the_end_forward(
    on_hand: int, weekly: list[int], parcels: list[tuple[float, int]]
) -> None:
    without, with_them = empty_after(on_hand, weekly), empty_after(on_hand, weekly, parcels)
    assert with_them is None or (without is not None and with_them >= without - 1e-9)
    assert empty_after(on_hand, weekly, [*parcels, (0.0, sum(weekly))]) is None
