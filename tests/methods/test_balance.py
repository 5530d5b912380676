import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.balance import Entry, Reading, balance, balances, corrections


def at(hour: int, minute: int = 0) -> str:
    return f"2026-11-{25 + hour // 24:02d}T{hour % 24:02d}:{minute:02d}:00Z"


HOURS = st.integers(0, 60)
POINTS = st.builds(lambda hour, amount: Entry(at(hour), amount), HOURS, st.integers(-500, 500))
SPREADS = st.builds(
    lambda hour, length, amount: Entry(at(hour), amount, at(hour + length)),
    HOURS,
    st.integers(0, 30),
    st.integers(-500, 500),
)
ENTRIES = st.lists(POINTS | SPREADS, max_size=12)
READINGS = st.lists(st.builds(lambda hour, amount: Reading(at(hour), amount), HOURS, st.integers(0, 900)), max_size=5)


def test_without_a_reading_the_entries_add_up_from_nothing() -> None:
    entries = [Entry(at(1), 1000), Entry(at(5), -300)]

    assert balance(entries, [], at(4)).amount == 1000
    assert balance(entries, [], at(5)).amount == 700


def test_a_reading_is_kept_as_read_and_later_entries_count_on_from_it() -> None:
    told = balance([Entry(at(1), 1000), Entry(at(5), -300)], [Reading(at(3), 940)], at(9))

    assert (told.amount, told.last_reading_at, told.drawn_since) == (640, at(3), 300)


def test_a_reading_after_the_moment_asked_for_is_not_seen() -> None:
    assert balance([Entry(at(1), 1000)], [Reading(at(3), 940)], at(2)).amount == 1000


def test_at_equal_moments_entries_come_before_the_reading() -> None:
    assert balance([Entry(at(1), 1000), Entry(at(3), -300)], [Reading(at(3), 690)], at(3)).amount == 690


def test_a_correction_shows_both_figures() -> None:
    made = corrections([Entry(at(1), 1000), Entry(at(3), -300)], [Reading(at(3), 690), Reading(at(9), 650)])

    assert [(each.computed, each.read, each.difference) for each in made] == [
        (700, 690, -10),
        (690, 650, -40),
    ]


def test_a_reading_inside_a_draw_splits_it_in_proportion_to_time() -> None:
    draw = Entry(at(4), -400, at(8))
    entries = [Entry(at(1), 1000), draw]

    assert corrections(entries, [Reading(at(5), 880)])[0].computed == 900
    assert balance(entries, [Reading(at(5), 880)], at(9)).amount == 880 - 300


def test_a_draw_is_half_done_half_way() -> None:
    assert balance([Entry(at(4), -400, at(8))], [], at(6)).amount == -200


def test_a_draw_below_zero_is_taken_and_flagged() -> None:
    told = balance([Entry(at(1), 100), Entry(at(2), -150)], [], at(3))

    assert (told.amount, told.is_negative) == (-50, True)
    assert not balance([Entry(at(1), 100)], [], at(3)).is_negative


def test_an_entry_that_ends_before_it_begins_is_refused() -> None:
    with pytest.raises(ValueError, match="before it begins"):
        balance([Entry(at(5), -1, at(4))], [], at(9))


@given(ENTRIES, READINGS, HOURS)
def test_the_order_in_which_facts_come_in_does_not_matter(
    entries: list[Entry], readings: list[Reading], hour: int
) -> None:
    one_a_moment = list({reading.at: reading for reading in readings}.values())

    assert balance(entries, one_a_moment, at(hour)) == balance(entries[::-1], one_a_moment[::-1], at(hour))


@given(ENTRIES, READINGS)
def test_entries_and_corrections_together_give_the_balance(entries: list[Entry], readings: list[Reading]) -> None:
    corrected = sum(each.difference for each in corrections(entries, readings))

    assert balance(entries, readings, at(200)).amount == sum(entry.amount for entry in entries) + corrected


@given(ENTRIES, HOURS)
def test_a_reading_that_confirms_the_balance_changes_nothing(entries: list[Entry], hour: int) -> None:
    confirmed = Reading(at(hour), balance(entries, [], at(hour)).amount)

    assert corrections(entries, [confirmed])[0].difference == 0
    for later in (hour, hour + 3, 200):
        assert balance(entries, [confirmed], at(later)).amount == balance(entries, [], at(later)).amount


@given(ENTRIES, READINGS, st.lists(HOURS, max_size=6))
def test_many_moments_are_told_like_each_alone(
    entries: list[Entry], readings: list[Reading], hours: list[int]
) -> None:
    told = balances(entries, readings, [at(hour) for hour in hours])

    assert told == tuple(balance(entries, readings, at(hour)) for hour in hours)
