"""One figure that was measured, with its target."""

from typing import NamedTuple


class Result(NamedTuple):
    """``target`` is what it may be at most; None where nothing is promised."""

    what: str
    measured: float
    target: float | None
    unit: str
    told: str = ""

    @property
    def verdict(self) -> str:
        return "" if self.target is None else "ok" if self.measured <= self.target else "over"

    def line(self) -> str:
        figure = f"{self.measured:.0f} {self.unit}" if self.unit != "×" else f"{self.measured:.2f} ×"
        target = "" if self.target is None else f"≤ {self.target:g} {self.unit}"
        return f"| {self.what:<46} | {figure:>9} | {target:>9} | {self.verdict:<4} | {self.told} |"
