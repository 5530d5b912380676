"""Alerts as text and as an iCalendar file."""

from dataclasses import replace

import pytest

from buildlog.report.alerts_out import alerts_calendar, alerts_plain, alerts_text, worst
from buildlog.status.alerts import Alert, AlertLevel
from buildlog.status.baskets import Basket, BasketLine
from buildlog.terms import Moment, Unit

NOW = Moment("2026-11-25T12:00:00Z")
DUE = Moment("2026-11-27T11:00:00Z")
LINE = BasketLine(1, None, "TPU-AMBER", 2, Unit.EACH, 5_800, DUE, "runs out on Sat 5 Dec", True)
BASKET = Basket(1, "Mill, Lane; Works", (LINE,), DUE, 490, 6_290, True)
ORDER = Alert(AlertLevel.ORDER_NOW, "Order at Mill, Lane; Works", DUE, BASKET, None)
LATER = Alert(AlertLevel.LATER, "Order primer", None, None, None)
LOOK = Alert(AlertLevel.LOOK, "Weigh the spool " + "käfer " * 30, None, None, None)


def test_text_names_every_line_of_a_basket_with_its_price_and_day() -> None:
    text = alerts_text((ORDER,), NOW, "Europe/Berlin", "EUR")
    assert "by Fri 27 Nov" in text
    assert "TPU-AMBER ×2  58.00 EUR" in text
    assert "62.90 EUR with delivery" in text


def test_a_day_that_is_over_is_not_told_as_one_to_come() -> None:
    assert "by Fri 27 Nov" not in alerts_text((ORDER,), Moment("2026-11-28T00:00:00Z"), "Europe/Berlin", "EUR")


def test_plain_values_are_the_raw_ones() -> None:
    assert alerts_plain((ORDER,))[0]["lines"][0]["price_minor"] == 5_800


def test_ordering_now_outweighs_ordering_later_and_a_look_decides_nothing() -> None:
    assert worst((LATER, ORDER)) is AlertLevel.ORDER_NOW
    assert worst((LOOK, LATER)) is AlertLevel.LATER
    assert worst((LOOK,)) is None


def test_the_calendar_has_crlf_lines_folded_at_75_octets_and_escaped_texts() -> None:
    """RFC 5545, sections 3.1 (folding) and 3.3.11 (escaping)."""
    text = alerts_calendar((ORDER, LATER, LOOK), NOW, "Europe/Berlin")
    lines = text.split("\r\n")
    assert lines[0] == "BEGIN:VCALENDAR"
    assert lines[-2:] == ["END:VCALENDAR", ""]
    assert all(len(line.encode()) <= 75 for line in lines)
    assert "\n" not in text.replace("\r\n", "")
    assert "SUMMARY:Order at Mill\\, Lane\\; Works" in text.replace("\r\n ", "")
    assert text.count("BEGIN:VEVENT") == 3
    assert "DTSTART;VALUE=DATE:20261127" in text


def test_the_same_alerts_at_the_same_moment_give_the_same_bytes() -> None:
    assert alerts_calendar((ORDER,), NOW, "Europe/Berlin") == alerts_calendar((ORDER,), NOW, "Europe/Berlin")


@pytest.mark.parametrize(
    ("zone", "due", "day"),
    [
        ("America/New_York", "2026-11-28T04:59:00Z", "20261127"),  # the last minute of Friday there
        ("Europe/Berlin", "2026-11-27T23:30:00Z", "20261128"),  # half an hour into Saturday
    ],
)
def test_a_day_of_the_calendar_is_the_day_at_home(zone: str, due: str, day: str) -> None:
    text = alerts_calendar((replace(ORDER, due_at=Moment(due)),), NOW, zone)
    assert f"DTSTART;VALUE=DATE:{day}\r\n" in text
    assert f"DTEND;VALUE=DATE:{int(day) + 1}\r\n" in text
