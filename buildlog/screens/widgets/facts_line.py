"""The headline of a screen: a few figures with what they are, in one line, or two where they need it.

    facts.show((Fact("parade", "24 days"), Fact("to print", "312 h", Tone.CAUTION), Fact("on top", "× 1.5")))

A fact that no longer fits goes to the second line; after that it is left out whole, with `…` in its place. The first
ones are the important ones.
"""

from __future__ import annotations

from collections.abc import Sequence

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.cells import CUT_SIGN, width_of, wrapped
from buildlog.screens.widgets.span_line import SpanLine, Spans
from buildlog.screens.widgets.tones import SIGNS, Tone

BETWEEN = "   "


@frozen
class Fact:
    label: str
    value: str
    tone: Tone = Tone.STRONG

    def spans(self) -> list[tuple[str, Tone]]:
        sign = f"{SIGNS[self.tone]} " if self.tone in SIGNS else ""
        return [(f"{self.label} ", Tone.FAINT), (sign + self.value, self.tone)]


def fact_lines(facts: Sequence[Fact], width: int, most: int) -> list[Spans]:
    """The facts in at most so many lines; one that is longer than a line is parted between words."""
    lines: list[Spans] = [[]]
    for number, fact in enumerate(facts, start=1):
        pieces = _pieces(fact, width)
        joined = [*lines[-1], (BETWEEN, Tone.PLAIN), *pieces[0]] if lines[-1] else pieces[0]
        sign = len(BETWEEN + CUT_SIGN) if len(lines) == most and number < len(facts) else 0
        if len(pieces) == 1 and _width(joined) + sign <= width:
            lines[-1] = joined
            continue
        kept = lines if lines[-1] else lines[:-1]
        if len(kept) == most:
            lines[-1] = [*lines[-1], (BETWEEN + CUT_SIGN, Tone.FAINT)]
            break
        room = most - len(kept)
        gap = (" ", Tone.PLAIN)  # what is left over is drawn cut
        rest = [span for piece in pieces[room - 1 :] for span in (gap, *piece)][1:]
        lines = [*kept, *pieces[: room - 1], *([rest] if rest else [])]
    return lines


def _pieces(fact: Fact, width: int) -> list[Spans]:
    """A fact, in several lines where one is too short."""
    label, (value, tone) = fact.spans()
    first, *rest = wrapped(label[0] + value, max(1, width))
    return [[label, (first[len(label[0]) :], tone)], *([(text, tone)] for text in rest)] if rest else [fact.spans()]


def _width(spans: Spans) -> int:
    return sum(width_of(text) for text, _ in spans)


class FactsLine(SpanLine):
    """Facts on the panel ground."""

    LINES_AT_MOST = 2

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._facts: tuple[Fact, ...] = ()

    def show(self, facts: Sequence[Fact]) -> None:
        self._facts = tuple(facts)
        self.shows_other()

    def lines(self, width: int) -> list[Spans]:
        found = fact_lines(self._facts, width - 3, self.LINES_AT_MOST)
        return [[("  ", Tone.PLAIN), *line] for line in found]
