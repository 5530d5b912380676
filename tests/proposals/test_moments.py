"""Moments in words, read in the home zone Europe/Berlin on Wednesday 25 November 2026 at 13:00."""

import pytest

from buildlog.proposals.moments import moment_reader, read_moment
from buildlog.proposals.nouns import noun_fields, values_from_texts
from buildlog.terms import Moment

NOW = Moment("2026-11-25T12:00:00Z")
ZONE = "Europe/Berlin"


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("now", "2026-11-25T12:00:00Z"),
        ("2026-11-24 14:00", "2026-11-24T13:00:00Z"),
        ("2026-11-24T14:00", "2026-11-24T13:00:00Z"),
        ("2026-11-24 9:00", "2026-11-24T08:00:00Z"),
        ("2026-11-24T14:00Z", "2026-11-24T14:00:00Z"),
        ("2026-11-24T14:00:05+05:00", "2026-11-24T09:00:05Z"),
        ("2026-11-24", "2026-11-24T11:00:00Z"),
        ("today 11:00", "2026-11-25T10:00:00Z"),
        ("yesterday 23:10", "2026-11-24T22:10:00Z"),
        ("Yesterday  23:10 ", "2026-11-24T22:10:00Z"),
        ("yesterday", "2026-11-24T11:00:00Z"),
        ("-6h", "2026-11-25T06:00:00Z"),
        ("-2d 3h", "2026-11-23T09:00:00Z"),
        ("-45m", "2026-11-25T11:15:00Z"),
        ("-3d 21:30", "2026-11-22T20:30:00Z"),
        ("-126d 14:30", "2026-07-22T12:30:00Z"),
        ("-0d 9:00", "2026-11-25T08:00:00Z"),
        ("Tue 22:10", "2026-11-24T21:10:00Z"),
        ("tuesday 22:10", "2026-11-24T21:10:00Z"),
        ("Thu", "2026-11-19T11:00:00Z"),
        ("Wed 22:10", "2026-11-18T21:10:00Z"),
        ("Wed 9:30", "2026-11-25T08:30:00Z"),
        ("12:59", "2026-11-25T11:59:00Z"),
        ("22:10", "2026-11-24T21:10:00Z"),
        ("24 Nov 8:00", "2026-11-24T07:00:00Z"),
        ("24 December", "2025-12-24T11:00:00Z"),
        ("1 Jul 2026 8:00", "2026-07-01T06:00:00Z"),
    ],
)
def test_a_past_moment_is_read_in_the_home_zone(text: str, meant: str) -> None:
    assert read_moment(text, NOW, ZONE) == meant


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("+14d", "2026-12-09T12:00:00Z"),
        ("+90m", "2026-11-25T13:30:00Z"),
        ("+3d 10:00", "2026-11-28T09:00:00Z"),
        ("Tue 22:10", "2026-12-01T21:10:00Z"),
        ("Wed 22:10", "2026-11-25T21:10:00Z"),
        ("Wed 9:30", "2026-12-02T08:30:00Z"),
        ("22:10", "2026-11-25T21:10:00Z"),
        ("9:00", "2026-11-26T08:00:00Z"),
        ("tomorrow 9:00", "2026-11-26T08:00:00Z"),
        ("22 Nov 10:00", "2026-11-22T09:00:00Z"),
        ("28 Sep 10:00", "2026-09-28T08:00:00Z"),
        ("2026-12-12", "2026-12-12T11:00:00Z"),
        ("6 Jan 17:00", "2027-01-06T16:00:00Z"),
        ("today", "2026-11-25T11:00:00Z"),
    ],
)
def test_a_moment_that_may_lie_ahead_is_the_next_one(text: str, meant: str) -> None:
    assert read_moment(text, NOW, ZONE, future=True) == meant


@pytest.mark.parametrize("text", ["today 14:00", "+1m", "tomorrow", "2026-11-25T12:00:01Z", "26 Nov 2026"])
def test_a_fact_never_lies_in_the_future(text: str) -> None:
    with pytest.raises(ValueError, match="is in the future"):
        read_moment(text, NOW, ZONE)


def test_a_day_alone_is_noon_and_the_present_while_noon_of_today_is_to_come() -> None:
    morning = Moment("2026-11-25T07:15:00Z")
    assert read_moment("today", morning, ZONE) == morning
    assert read_moment("2026-11-25", morning, ZONE) == morning
    assert read_moment("today", NOW, ZONE) == "2026-11-25T11:00:00Z"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "soon",
        "25:00",
        "12:60",
        "2026-02-30",
        "-",
        "+",
        "32 Nov",
        "5 Foo",
        "6h",
        "3d 21:30",
        "-3d 25:00",
        "money",
        "2026-1-1",
        "-9999d 1x",
    ],
)
def test_what_is_no_moment_is_refused_with_the_ways_to_write_one(text: str) -> None:
    with pytest.raises(ValueError, match=r"yesterday 23:10.*Tue 22:10.*-6h"):
        read_moment(text, NOW, ZONE)


def test_a_time_that_the_change_of_the_clock_leaves_out_moves_forward_with_the_clock() -> None:
    # 29 March 2026: 02:00 CET becomes 03:00 CEST (EU summer time, Directive 2000/84/EC)
    assert read_moment("2026-03-29 02:30", NOW, ZONE) == read_moment("2026-03-29 03:30", NOW, ZONE)


def test_of_a_time_that_comes_twice_the_first_is_meant_unless_the_offset_is_written() -> None:
    # 25 October 2026: 03:00 CEST becomes 02:00 CET (EU summer time, Directive 2000/84/EC)
    assert read_moment("2026-10-25 02:30", NOW, ZONE) == "2026-10-25T00:30:00Z"
    assert read_moment("2026-10-25 02:30 +01:00", NOW, ZONE) == "2026-10-25T01:30:00Z"


def test_days_go_by_the_clock_on_the_wall_and_hours_by_what_passes() -> None:
    monday = Moment("2026-10-26T11:00:00Z")  # noon CET; a day before it was noon CEST 25 hours ago
    assert read_moment("-2d", monday, ZONE) == "2026-10-24T10:00:00Z"
    assert read_moment("-48h", monday, ZONE) == "2026-10-24T11:00:00Z"


def test_moments_of_a_form_are_read_in_words_and_only_some_may_lie_ahead() -> None:
    reader = moment_reader(NOW, ZONE)
    ahead, problems = values_from_texts(
        noun_fields("milestone"),
        {"code": "PARADE", "name": "parade", "kind": "event", "due": "+14d"},
        reader,
    )
    assert (ahead["due"], problems) == ("2026-12-09T12:00:00Z", ())
    _, problems = values_from_texts(
        noun_fields("spool"), {"code": "S1", "material": "ABS", "opened": "+1d", "received": "-1d"}, reader
    )
    assert [field for field, _ in problems] == ["opened"]


def test_a_day_of_last_december_is_meant_where_it_was_short_ago_and_one_far_ago_is_next_years() -> None:
    january = Moment("2027-01-05T12:00:00Z")
    assert read_moment("28 Dec 10:00", january, ZONE, future=True) == "2026-12-28T09:00:00Z"
    assert read_moment("28 Oct 10:00", january, ZONE, future=True) == "2027-10-28T08:00:00Z"


def test_without_a_reader_a_moment_is_read_as_the_record_writes_it() -> None:
    texts = {"code": "S1", "material": "ABS", "received": "2026-11-01T10:00:00Z", "opened": "yesterday"}
    values, problems = values_from_texts(noun_fields("spool"), texts)
    assert values["received"] == "2026-11-01T10:00:00Z"
    assert [field for field, _ in problems] == ["opened"]


@pytest.mark.parametrize("text", ["0001-01-01", "0999-12-31 23:59", "1969-12-31", "2200-01-02", "9999-12-31 23:59"])
def test_a_year_of_no_build_is_refused_whether_it_lies_ahead_or_not(text: str) -> None:
    for future in (False, True):
        with pytest.raises(ValueError, match="from 1970 to 2199"):
            read_moment(text, NOW, ZONE, future)


@pytest.mark.parametrize("text", ["9999-12-31T23:59-23:59", "0001-01-01T00:00+23:59"])
def test_a_moment_beyond_all_calendars_is_no_moment(text: str) -> None:
    with pytest.raises(ValueError, match="no moment"):
        read_moment(text, NOW, ZONE, True)
