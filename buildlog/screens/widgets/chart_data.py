"""What a Chart draws: lines over x with a band, levels and dates; x in any one unit, y in any other."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.tones import Tone


class Stroke(Enum):
    """Dot patterns along a line: how many dots set, how many left out."""

    SOLID = (1, 0)
    DASHED = (4, 3)
    DOTTED = (2, 2)

    @property
    def sample(self) -> str:
        return {"SOLID": "⠒⠒", "DASHED": "⠒⠐", "DOTTED": "⠐⠐"}[self.name]


@frozen
class Curve:
    """One line through (x, y) points in order of x."""

    label: str
    points: tuple[tuple[float, float], ...]
    stroke: Stroke = Stroke.SOLID
    tone: Tone = Tone.STRONG


@frozen
class Level:
    """A horizontal line across the plot; its label stands in the axis."""

    label: str
    y: float
    tone: Tone = Tone.CAUTION


@frozen
class Upright:
    """A vertical line; its label stands in a line above the plot, or at its side of it."""

    label: str
    x: float
    tone: Tone = Tone.CAUTION


@frozen
class ChartData:
    """A whole picture. `band` is (x, low, high) in order of x, `x_labels` (text, x); y reaches down to 0."""

    title: str
    curves: tuple[Curve, ...] = ()
    band: tuple[tuple[float, float, float], ...] = ()
    band_label: str = ""
    levels: tuple[Level, ...] = ()
    uprights: tuple[Upright, ...] = ()
    x_labels: tuple[tuple[str, float], ...] = ()
    unit: str = ""

    @property
    def is_empty(self) -> bool:
        return not any(curve.points for curve in self.curves)

    def x_range(self) -> tuple[float, float]:
        xs = [x for x, _ in self._points()]
        xs += [mark.x for mark in self.uprights] + [x for _, x in self.x_labels]
        low, high = min(xs), max(xs)
        return low, high if high > low else low + 1

    def y_range(self) -> tuple[float, float]:
        ys = [y for _, y in self._points()] + [level.y for level in self.levels]
        low, high = min(0.0, *ys), max(ys)
        return low, high if high > low else low + 1

    def band_at(self, x: float) -> tuple[float, float] | None:
        """Low and high of the band at x, straight between its points; None beside it."""
        for (x0, low0, high0), (x1, low1, high1) in zip(self.band, self.band[1:], strict=False):
            if x0 <= x <= x1:
                share = (x - x0) / (x1 - x0) if x1 > x0 else 0.0
                return low0 + (low1 - low0) * share, high0 + (high1 - high0) * share
        return None

    def _points(self) -> Iterator[tuple[float, float]]:
        for curve in self.curves:
            yield from curve.points
        for x, low, high in self.band:
            yield x, low
            yield x, high


def round_steps(low: float, high: float, at_most: int) -> list[float]:
    """At most `at_most` values between low and high, at steps of 1, 2 or 5 times a power of ten."""
    span = high - low
    if at_most < 1 or span <= 0:
        return [0.0]
    exponent = -6
    while True:
        for lead in (1, 2, 5):
            step = lead * 10.0**exponent
            first, last = -int(-low // step), int(high // step)
            if last - first + 1 <= at_most:
                return [n * step for n in range(first, last + 1)]
        exponent += 1
