"""A burn-down as a chart with weekly places, few of them, and no line drawn twice."""

import re
from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest

from buildlog.report.burn_chart import axis_of, burn_chart
from buildlog.report.mermaid import MOST_CATEGORIES
from buildlog.status.burn_down import BurnDown, Curve
from buildlog.terms import minutes_between, moment

MONDAY = datetime(2026, 11, 23, tzinfo=UTC)


def curve(now: datetime, first: float, step: float, weeks: int) -> Curve:
    """Now and the Mondays after it, each lower by ``step``."""
    after = [now] + [MONDAY + timedelta(weeks=n) for n in range(1, weeks + 1)]
    return tuple((moment(at), max(0.0, first - step * index)) for index, at in enumerate(after))


def burn(now: datetime, weeks_back: int = 8, weeks_ahead: int = 5, spread: float = 3.0) -> BurnDown:
    past = [MONDAY - timedelta(weeks=n) for n in range(weeks_back, -1, -1)]
    actual = tuple((moment(at), 100.0 + 10 * (len(past) - index)) for index, at in enumerate(past) if at < now)
    fast, middle, slow = (curve(now, 100.0, step, weeks_ahead) for step in (10 + spread, 10.0, 10 - spread))
    return BurnDown(None, "h", (*actual, (moment(now), 100.0)), middle, fast, slow, None, False)


@pytest.mark.parametrize("weekday", range(7))
@pytest.mark.parametrize(("back", "ahead"), [(0, 1), (3, 2), (8, 5), (26, 8), (26, 20), (26, 60)])
def test_places_are_evenly_apart_and_at_most_fourteen(weekday: int, back: int, ahead: int) -> None:
    found = burn(MONDAY + timedelta(days=weekday, hours=13), back, ahead)
    axis = axis_of(found)
    times = (
        [found.actual[i][0] for i in axis.past] + [found.forecast[0][0]] + [found.forecast[i][0] for i in axis.ahead]
    )
    assert len(times) <= MOST_CATEGORIES
    apart = [minutes_between(a, b) / 1440 for a, b in pairwise(times)]
    step = max(1, round(max(apart, default=7) / 7))
    assert all(7 * (step - 0.5) - 0.1 <= days <= 7 * (step + 0.5) + 0.1 for days in apart), apart


def test_the_chart_says_its_unit_and_ends_the_actual_line_at_now() -> None:
    text = burn_chart(burn(MONDAY + timedelta(days=2)), "Print hours left", "Europe/Berlin")
    assert "rint hours left #40;h#41;" in text
    lines = [line.split(",") for line in re.findall(r"^  line \[(.*)\]$", text, re.MULTILINE)]
    names = re.findall(r'"([^"]*)"', next(line for line in text.splitlines() if "x-axis" in line))
    assert names.index("#110;ow") == len(lines[-1]) - 1
    assert [len(line) for line in lines[:-1]] == [len(names)] * 3
    assert all(line[: len(lines[-1])] == lines[-1] for line in lines)


def test_lines_that_coincide_are_drawn_once_and_the_caption_speaks_of_no_band() -> None:
    text = burn_chart(burn(MONDAY + timedelta(days=2), spread=0.0), "On hand", "Europe/Berlin")
    assert len(re.findall(r"^  line ", text, re.MULTILINE)) == 2
    assert "grey" not in text
    assert "grey" in burn_chart(burn(MONDAY + timedelta(days=2)), "On hand", "Europe/Berlin")
