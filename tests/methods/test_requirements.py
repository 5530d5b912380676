from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.requirements import Supply, order_by, plan

AMOUNTS = st.integers(0, 5000)
WEEKS = st.lists(st.tuples(AMOUNTS, AMOUNTS), max_size=12)
SUPPLIES = st.builds(Supply, st.integers(0, 5000), AMOUNTS, st.integers(1, 1000), st.integers(0, 4))


@given(WEEKS, SUPPLIES)
def test_the_stock_never_ends_a_week_below_the_safety_stock(weeks: list[tuple[int, int]], supply: Supply) -> None:
    planned = plan([week[0] for week in weeks], [week[1] for week in weeks], supply)

    assert all(week.on_hand >= supply.safety_stock for week in planned.weeks)


@given(WEEKS, SUPPLIES)
def test_nothing_appears_and_nothing_is_lost(weeks: list[tuple[int, int]], supply: Supply) -> None:
    planned = plan([week[0] for week in weeks], [week[1] for week in weeks], supply)
    last = planned.weeks[-1].on_hand if planned.weeks else supply.on_hand

    came = sum(week.scheduled + week.planned_receipt for week in planned.weeks)
    assert last == supply.on_hand + came - sum(week.gross for week in planned.weeks)


@given(WEEKS, SUPPLIES)
def test_receipts_are_whole_packs_and_no_pack_too_many(weeks: list[tuple[int, int]], supply: Supply) -> None:
    for week in plan([week[0] for week in weeks], [week[1] for week in weeks], supply).weeks:
        assert week.planned_receipt % supply.pack_size == 0
        assert 0 <= week.planned_receipt - week.net < supply.pack_size


@given(WEEKS, SUPPLIES)
def test_every_receipt_is_released_or_past_due(weeks: list[tuple[int, int]], supply: Supply) -> None:
    planned = plan([week[0] for week in weeks], [week[1] for week in weeks], supply)

    released = sum(week.planned_release for week in planned.weeks) + planned.past_due_release
    assert released == sum(week.planned_receipt for week in planned.weeks)


def test_a_need_within_the_lead_time_is_past_due() -> None:
    planned = plan([0, 800, 0, 0], [0] * 4, Supply(on_hand=100, pack_size=1000, lead_weeks=2))

    assert planned.past_due_release == 1000
    assert [week.planned_release for week in planned.weeks] == [0, 0, 0, 0]


def test_a_lead_time_beyond_the_last_week_is_all_past_due() -> None:
    planned = plan([5], [0], Supply(on_hand=0, lead_weeks=4))

    assert (planned.past_due_release, planned.weeks[0].planned_release) == (5, 0)


def test_weeks_that_do_not_meet_are_refused() -> None:
    with pytest.raises(ValueError, match="2 weeks of requirements do not meet 1 weeks"):
        plan([1, 2], [1], Supply(0))


@pytest.mark.parametrize("wrong", [{"pack_size": 0}, {"lead_weeks": -1}, {"safety_stock": -1}])
def test_a_supply_that_cannot_be_is_refused(wrong: dict[str, int]) -> None:
    with pytest.raises(ValueError, match=r"a pack holds at least 1|cannot be below 0"):
        Supply(0, **wrong)


def test_without_a_cut_off_only_the_lead_time_counts_back() -> None:
    assert order_by(date(2026, 12, 11), 5) == date(2026, 12, 6)


def test_a_weekly_cut_off_moves_the_order_to_the_weekday_before() -> None:
    wednesday = 2

    assert order_by(date(2026, 12, 11), 5, wednesday) == date(2026, 12, 2)


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)), st.integers(0, 60), st.integers(0, 6))
def test_an_order_by_its_day_arrives_in_time_and_a_week_later_does_not(need: date, lead: int, weekday: int) -> None:
    day = order_by(need, lead, weekday)

    assert day.weekday() == weekday
    assert day + timedelta(days=lead) <= need < day + timedelta(days=lead + 7)


def test_days_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="lead time cannot be below 0"):
        order_by(date(2026, 1, 1), -1)
    with pytest.raises(ValueError, match="a weekday is 0 for Monday"):
        order_by(date(2026, 1, 1), 1, 7)
