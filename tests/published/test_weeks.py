"""ISO 8601 weeks, recurrence rules of RFC 5545, and changes of the clock."""

import json
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from buildlog.methods.weeks import iso_week_label, local_moment, occurrences, week_of

EXAMPLES = json.loads((Path(__file__).parent / "rrule_examples.json").read_text("utf-8"))
YEARS_OF_53_WEEKS = [2004, 2009, 2015, 2020, 2026, 2032, 2037, 2043, 2048, 2054]


@pytest.mark.parametrize(
    ("day", "label"),
    [
        ("2006-12-31", "2006-W52"),
        ("2019-12-30", "2020-W01"),
        ("1996-12-30", "1997-W01"),
        ("1997-01-05", "1997-W01"),
        ("2012-12-31", "2013-W01"),
    ],
)
def test_week_dates_of_secondary_texts_on_iso_8601(day: str, label: str) -> None:
    # as read in liquisearch.com/iso_week_date and world.clndr.org
    assert iso_week_label(date.fromisoformat(day)) == label


@pytest.mark.parametrize(
    ("day", "label"),
    [
        ("2005-01-01", "2004-W53"),
        ("2005-12-31", "2005-W52"),
        ("2007-12-31", "2008-W01"),
        ("2008-12-28", "2008-W52"),
        ("2008-12-29", "2009-W01"),
        ("2010-01-03", "2009-W53"),
        ("2010-01-04", "2010-W01"),
        ("2016-01-03", "2015-W53"),
        ("2024-12-30", "2025-W01"),
        ("2026-12-31", "2026-W53"),
    ],
)
def test_week_dates_computed_by_the_rule(day: str, label: str) -> None:
    # computed by us from the rule that week 1 holds 4 January
    assert iso_week_label(date.fromisoformat(day)) == label
    moment = datetime.fromisoformat(day).replace(hour=12, tzinfo=UTC)
    assert week_of(moment, ZoneInfo("UTC")).label == label


def test_71_of_400_years_have_53_weeks() -> None:
    # as read in liquisearch.com/iso_week_date; the years from 2000 on computed by us
    long_years = [year for year in range(2000, 2400) if iso_week_label(date(year, 12, 28)).endswith("W53")]

    assert len(long_years) == 71
    assert long_years[: len(YEARS_OF_53_WEEKS)] == YEARS_OF_53_WEEKS


@pytest.mark.parametrize("example", EXAMPLES, ids=[example["name"] for example in EXAMPLES])
def test_examples_of_rfc_5545(example: dict[str, object]) -> None:
    # RFC 5545 section 3.8.5.3, as read in a copy of its text; all at 09:00 in New York, across the change of
    # the clock in October 1997
    zone = ZoneInfo(str(example["tzid"]))
    start = datetime.strptime(str(example["dtstart"]), "%Y%m%dT%H%M%S").replace(tzinfo=zone)
    expected = [date.fromisoformat(day) for day in example["expected_dates"]]
    one_day = timedelta(days=1)
    end = local_moment(expected[-1] + one_day, time(), zone)
    if example["complete"]:
        end += timedelta(days=3660)

    told = [moment.astimezone(zone) for moment in occurrences(str(example["rrule"]), start, zone, (start, end))]

    assert [moment.date() for moment in told] == expected
    assert {moment.strftime("%H:%M") for moment in told} == {example["local_time"]}


@pytest.mark.parametrize(
    ("rule", "clock_times"),
    [
        ("FREQ=MINUTELY;INTERVAL=90;COUNT=4", ["09:00", "10:30", "12:00", "13:30"]),
        ("FREQ=MINUTELY;INTERVAL=15;COUNT=6", ["09:00", "09:15", "09:30", "09:45", "10:00", "10:15"]),
    ],
)
def test_examples_of_rfc_5545_within_a_day(rule: str, clock_times: list[str]) -> None:
    # RFC 5545 section 3.8.5.3, as read in a copy of its text (90 minutes) and from memory (15 minutes)
    zone = ZoneInfo("America/New_York")
    start = datetime(1997, 9, 2, 9, tzinfo=zone)

    told = occurrences(rule, start, zone, (start, start + timedelta(days=1)))

    assert [moment.astimezone(zone).strftime("%H:%M") for moment in told] == clock_times


def test_every_twenty_minutes_of_a_working_day_is_24_a_day() -> None:
    # RFC 5545 section 3.8.5.3, as read in a copy of its text
    zone = ZoneInfo("America/New_York")
    start = datetime(1997, 9, 2, 9, tzinfo=zone)
    rule = "FREQ=DAILY;BYHOUR=9,10,11,12,13,14,15,16;BYMINUTE=0,20,40"

    assert len(occurrences(rule, start, zone, (start, start + timedelta(days=1)))) == 24


@pytest.mark.parametrize(("morning", "hours"), [(date(2026, 3, 29), 11), (date(2026, 10, 25), 13)])
def test_a_night_from_20_to_8_across_a_change_of_the_clock(morning: date, hours: int) -> None:
    # computed by us from the tz database
    zone = ZoneInfo("Europe/Berlin")
    evening = morning - timedelta(days=1)

    night = local_moment(morning, time(8), zone) - local_moment(evening, time(20), zone)

    assert night == timedelta(hours=hours)


def test_a_day_of_25_hours_in_new_york() -> None:
    # computed by us from the tz database
    zone = ZoneInfo("America/New_York")
    noon = time(12)

    assert local_moment(date(1997, 10, 26), noon, zone) - local_moment(date(1997, 10, 25), noon, zone) == timedelta(
        hours=25
    )
