"""How moments are said."""

import pytest

from buildlog.terms import Moment
from buildlog.wording import dated, near, soon

ZONE, NOW = "Europe/Berlin", Moment("2026-11-25T12:00:00Z")


@pytest.mark.parametrize(
    ("at", "said"),
    [
        ("2026-01-02T08:00:00Z", "Fri 2 Jan 09:00"),
        ("2025-11-25T08:00:00Z", "Tue 25 Nov 2025 09:00"),
        ("2026-12-31T23:30:00Z", "Fri 1 Jan 2027 00:30"),
    ],
)
def test_a_moment_of_another_year_is_said_with_its_year(at: str, said: str) -> None:
    assert dated(Moment(at), NOW, ZONE) == said
    assert near(Moment(at), NOW, ZONE) == said


def test_a_day_next_to_today_needs_no_year() -> None:
    new_year = Moment("2026-12-31T12:00:00Z")
    assert near(Moment("2027-01-01T08:00:00Z"), new_year, ZONE) == "tomorrow 09:00"


@pytest.mark.parametrize(
    ("at", "said"),
    [
        ("2027-01-02T08:00:00Z", "2 Jan 09:00"),
        ("2028-01-02T08:00:00Z", "2 Jan 2028"),
        ("2025-01-02T08:00:00Z", "2 Jan 2025"),
    ],
)
def test_where_there_is_little_room_only_a_day_a_year_off_is_said_with_its_year(at: str, said: str) -> None:
    assert soon(Moment(at), NOW, ZONE) == said
