from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.weeks import (
    iso_week_label,
    local_day,
    local_moment,
    next_occurrence,
    occurrences,
    week_of,
    weeks_between,
)

BERLIN = ZoneInfo("Europe/Berlin")
ZONES = st.sampled_from([ZoneInfo(name) for name in ("Europe/Berlin", "America/New_York", "Africa/Cairo", "UTC")])
MOMENTS = st.datetimes(datetime(2000, 1, 1), datetime(2060, 1, 1), timezones=st.just(UTC))
FRIDAYS = "FREQ=WEEKLY;BYDAY=FR"
FIRST_FRIDAY = datetime(2026, 10, 2, 15, tzinfo=UTC)  # 17:00 in Berlin, summer time


@given(MOMENTS, ZONES)
def test_a_moment_lies_in_its_own_week(moment: datetime, zone: ZoneInfo) -> None:
    week = week_of(moment, zone)

    assert week.start <= moment < week.end
    assert week.first_day.weekday() == 0
    assert week.label == iso_week_label(local_day(moment, zone))


@given(MOMENTS, ZONES)
def test_weeks_follow_each_other_without_a_gap(moment: datetime, zone: ZoneInfo) -> None:
    weeks = weeks_between(moment, moment + timedelta(days=40), zone)

    assert all(before.end == after.start for before, after in pairwise(weeks))
    assert weeks[0] == week_of(moment, zone)
    assert weeks[-1] == week_of(moment + timedelta(days=40), zone)


@pytest.mark.parametrize(
    ("day", "hours"), [(date(2026, 3, 29), 167), (date(2026, 10, 25), 169), (date(2026, 6, 1), 168)]
)
def test_a_week_has_an_hour_less_or_more_when_the_clock_changes(day: date, hours: int) -> None:
    assert week_of(local_moment(day, time(12), BERLIN), BERLIN).hours == hours


def test_the_late_evening_of_sunday_belongs_to_the_week_at_home() -> None:
    sunday_2230_utc = datetime(2026, 11, 29, 23, 30, tzinfo=UTC)  # Monday 00:30 at home

    assert week_of(sunday_2230_utc, BERLIN).label == "2026-W49"
    assert week_of(sunday_2230_utc, ZoneInfo("UTC")).label == "2026-W48"


def test_a_time_that_the_clock_leaves_out_counts_as_before_the_change() -> None:
    assert local_moment(date(2026, 3, 29), time(2, 30), BERLIN) == datetime(2026, 3, 29, 1, 30, tzinfo=UTC)


def test_a_time_that_comes_twice_is_the_first() -> None:
    assert local_moment(date(2026, 10, 25), time(2, 30), BERLIN) == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)


def test_a_filming_day_keeps_its_time_on_the_wall_across_the_change_of_the_clock() -> None:
    moments = occurrences(FRIDAYS, FIRST_FRIDAY, BERLIN, (FIRST_FRIDAY, datetime(2026, 11, 7, tzinfo=UTC)))

    assert [moment.astimezone(BERLIN).hour for moment in moments] == [17] * 6
    assert [moment.hour for moment in moments] == [15, 15, 15, 15, 16, 16]


def test_between_holds_its_beginning_and_not_its_end() -> None:
    second = FIRST_FRIDAY + timedelta(weeks=1)

    assert occurrences(FRIDAYS, FIRST_FRIDAY, BERLIN, (FIRST_FRIDAY, second)) == (FIRST_FRIDAY,)


def test_the_next_filming_moment_lies_after_this_one() -> None:
    assert next_occurrence(FRIDAYS, FIRST_FRIDAY, BERLIN, FIRST_FRIDAY) == FIRST_FRIDAY + timedelta(weeks=1)


def test_a_rule_that_has_ended_has_no_next_moment() -> None:
    assert next_occurrence(FRIDAYS + ";COUNT=2", FIRST_FRIDAY, BERLIN, FIRST_FRIDAY + timedelta(weeks=1)) is None


def test_a_start_off_the_rule_does_not_count() -> None:
    thursday = FIRST_FRIDAY - timedelta(days=1)

    assert next_occurrence(FRIDAYS, thursday, BERLIN, thursday - timedelta(days=9)) == FIRST_FRIDAY


@pytest.mark.parametrize(
    "rule",
    [
        "",
        "every Friday",
        "FREQ=",
        "FREQ=WEEKLY;BYDAY=XX",
        "FREQ=WEEKLY;INTERVAL=0",
        "FREQ=DAILY;INTERVAL=-1",
        "FREQ=HOURLY;BYHOUR=99",
        "INTERVAL=2",
        "FREQ=WEEKLY;BYEASTER=1",
        "FREQ=WEEKLY;UNTIL=20261224",
        "RRULE:FREQ=WEEKLY\nRRULE:FREQ=DAILY",
        "DTSTART:20200101T000000\nRRULE:FREQ=WEEKLY",
    ],
)
def test_what_is_no_rule_is_refused_by_name(rule: str) -> None:
    with pytest.raises(ValueError, match="cannot be used as a recurrence rule of RFC 5545"):
        next_occurrence(rule, FIRST_FRIDAY, BERLIN, FIRST_FRIDAY)


@given(st.text(max_size=30) | st.from_regex(r"FREQ=WEEKLY;[A-Z]{2,9}=[-A-Z0-9,]{0,5}", fullmatch=True))
def test_any_text_either_is_a_rule_or_is_refused(text: str) -> None:
    try:
        found = next_occurrence(text, FIRST_FRIDAY, BERLIN, FIRST_FRIDAY)
    except ValueError as error:
        found, refusal = None, str(error)
    else:
        refusal = "none of RFC 5545"

    assert "RFC 5545" in refusal
    assert found is None or found > FIRST_FRIDAY


def test_a_rule_by_the_second_ends_in_a_refusal_and_not_in_a_wait() -> None:
    with pytest.raises(ValueError, match="make it coarser"):
        next_occurrence("FREQ=SECONDLY", FIRST_FRIDAY, BERLIN, FIRST_FRIDAY + timedelta(days=365))


def test_a_moment_without_a_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="needs a zone"):
        week_of(datetime(2026, 11, 25), BERLIN)
    with pytest.raises(ValueError, match="needs a zone"):
        next_occurrence(FRIDAYS, datetime(2026, 11, 25), BERLIN, FIRST_FRIDAY)
