"""The burn-down of a material, or of print hours, as a picture."""

from __future__ import annotations

from datetime import timedelta
from math import ceil, floor
from typing import TYPE_CHECKING

from buildlog.screens.stock_rows import short_day
from buildlog.screens.widgets.chart_data import ChartData, Curve, Level, Stroke, Upright
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import Moment, moment, when

if TYPE_CHECKING:
    from buildlog.status.burn_down import BurnDown
    from buildlog.status.status import Status

Points = tuple[tuple[float, float], ...]
DAY_SECONDS = 86400
LABELS = 6
AHEAD_DAYS = 70
"""So far the forecast is drawn: further on the eye would see little of what was."""
BEHIND_DAYS = 28
"""So much of the past is drawn at least, else as much as is ahead: a short forecast must not shrink to a stroke."""


def burn_down_chart(status: Status, material_id: int | None) -> ChartData | None:
    """What was on hand, what will be at the pace, its band, the reserve, and the day to order by."""
    from buildlog.status.stock import burn_down_of

    if material_id is None:
        return _drawn(status, "print hours", status.stock.hours_burn_down, 0.0)
    drawn = burn_down_of(status.snapshot, status.now, status.stock, status.hours, material_id)
    reserve = status.stock.materials[material_id].safety_mg / 1000
    return _drawn(status, status.snapshot.material[material_id].code, drawn, reserve)


def _drawn(status: Status, title: str, told: BurnDown, reserve: float) -> ChartData | None:
    ahead = [pair for pair in told.forecast if _days(pair[0]) <= _days(status.now) + AHEAD_DAYS]
    count = len(ahead)
    forecast = _points(tuple(ahead))
    span = max((x - _days(status.now) for x, _ in forecast), default=0.0)
    oldest = _days(status.now) - max(BEHIND_DAYS, span)
    actual = tuple((x, y) for x, y in _points(told.actual) if x >= oldest)
    if len(actual) + len(forecast) < 2 or not any(y for _, y in (*actual, *forecast)):
        return None
    band = tuple(
        (_days(at), low, high) for (at, low), (_, high) in zip(told.low[:count], told.high[:count], strict=True)
    )
    first, last = min(x for x, _ in (*actual, *forecast)), max(x for x, _ in (*actual, *forecast))
    uprights = []
    if told.order_by is not None and first <= _days(told.order_by) <= last:
        uprights.append(Upright(f"order by {short_day(status, told.order_by)}", _days(told.order_by), Tone.CAUTION))
    uprights.append(Upright("today", _days(status.now), Tone.FAINT))
    pace = "at usual pace" if told.usual_pace else "at this pace"
    return ChartData(
        title=title,
        curves=(Curve("so far", actual), Curve(pace, forecast, Stroke.DOTTED, Tone.ACCENT)),
        band=band,
        band_label="slow–fast",
        levels=(Level("reserve", reserve),) if reserve else (),
        uprights=tuple(uprights),
        x_labels=tuple(_labels(status, first, last)),
        unit=told.unit,
    )


def _points(curve: tuple[tuple[Moment, float], ...]) -> Points:
    return tuple((_days(at), max(0.0, y)) for at, y in curve)


def _days(at: Moment) -> float:
    return when(at).timestamp() / DAY_SECONDS


def _labels(status: Status, first: float, last: float) -> list[tuple[str, float]]:
    """Dates at even distances, whole weeks apart."""
    weeks = max(1, round((last - first) / 7 / LABELS))
    start, today = when(status.now), _days(status.now)
    steps = range(ceil((first - today) / 7 / weeks), floor((last - today) / 7 / weeks) + 1)
    moments = [moment(start + timedelta(weeks=weeks * step)) for step in steps]
    return [(short_day(status, at), _days(at)) for at in moments]
