"""A burn-down as a chart: as it was, week by week up to now, and the forecast between its slow and its fast side."""

import math
from dataclasses import dataclass

from buildlog.report.mermaid import MOST_CATEGORIES, line_chart
from buildlog.status.burn_down import BurnDown
from buildlog.terms import Moment, minutes_between
from buildlog.wording import day

MOST_AHEAD = 8
HALF_A_WEEK = 7 * 1440 // 2
BAND, FORECAST, ACTUAL = "#9aa5b1", "#3b82c4", "#d9822b"
"""Colours that show on light and on dark pages."""

CAPTION = "Up to now as it was (orange), then at the pace (blue)"
BAND_CAPTION = ", between the fast and the slow side (grey)"


@dataclass(frozen=True, slots=True)
class Axis:
    """Places of the weeks that are shown in ``actual`` (its last is now) and in ``forecast`` (its first is now)."""

    past: tuple[int, ...]
    ahead: tuple[int, ...]


def burn_chart(burn: BurnDown, title: str, zone: str) -> str:
    """The chart with its caption; lines that coincide are drawn once."""
    axis = axis_of(burn)
    now = burn.forecast[0][0]
    known = [burn.actual[index][1] for index in axis.past] + [burn.forecast[0][1]]
    names = [_day(burn.actual[index][0], zone) for index in axis.past]
    names += ["now", *(_day(burn.forecast[index][0], zone) for index in axis.ahead)]
    lines: dict[tuple[float, ...], str] = {}
    for colour, curve in ((BAND, burn.low), (BAND, burn.high), (FORECAST, burn.forecast)):
        values = tuple(round(v, 2) for v in (*known, *(curve[index][1] for index in axis.ahead)))
        lines[values] = colour  # the last of those that coincide is on top
    lines[tuple(round(v, 2) for v in known)] = ACTUAL
    drawn = [(colour, values) for values, colour in lines.items()]
    caption = CAPTION + (BAND_CAPTION if BAND in lines.values() else "")
    return f"{line_chart(f'{title} ({burn.unit})', burn.unit, names, drawn)}\n\n{caption}. Now is {_day(now, zone)}."


def axis_of(burn: BurnDown) -> Axis:
    """About one week between places, at most 14 of them: a week's end less than half a week from now is left out,
    and where the forecast is long, every second, third … week is shown, before and after now alike.
    """
    now = burn.forecast[0][0]
    past = [i for i, (at, _) in enumerate(burn.actual) if minutes_between(at, now) > HALF_A_WEEK]
    ahead = [i for i, (at, _) in enumerate(burn.forecast) if minutes_between(now, at) > HALF_A_WEEK]
    step = max(1, math.ceil(len(ahead) / MOST_AHEAD))
    ahead = ahead[step - 1 :: step]
    past = past[::-1][step - 1 :: step][: MOST_CATEGORIES - 1 - len(ahead)][::-1]
    return Axis(tuple(past), tuple(ahead))


def _day(at: Moment, zone: str) -> str:
    return day(at, zone)[4:]
