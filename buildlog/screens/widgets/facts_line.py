"""The headline of a screen: a few figures with what they are, in one line.

    facts.show((Fact("parade", "24 days"), Fact("to print", "312 h", Tone.CAUTION), Fact("on top", "× 1.5")))

A fact that no longer fits is left out whole, with `…` in its place; the first ones are the important ones.
"""

from __future__ import annotations

from collections.abc import Sequence

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.cells import CUT_SIGN, width_of
from buildlog.screens.widgets.span_line import SpanLine
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


def fact_spans(facts: Sequence[Fact], width: int) -> list[tuple[str, Tone]]:
    """The facts as spans in at most `width` cells; only the first may be cut within."""
    spans: list[tuple[str, Tone]] = []
    used = 0
    for i, fact in enumerate(facts):
        own = ([(BETWEEN, Tone.PLAIN)] if i else []) + fact.spans()
        needed = sum(width_of(text) for text, _ in own)
        sign = 0 if i + 1 == len(facts) else len(BETWEEN + CUT_SIGN)
        if i and used + needed + sign > width:
            return [*spans, (BETWEEN + CUT_SIGN, Tone.FAINT)]
        spans += own
        used += needed
    return spans


class FactsLine(SpanLine):
    """One line of facts on the panel ground."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._facts: tuple[Fact, ...] = ()

    def show(self, facts: Sequence[Fact]) -> None:
        self._facts = tuple(facts)
        self.refresh()

    def spans(self, width: int) -> list[tuple[str, Tone]]:
        return [("  ", Tone.PLAIN), *fact_spans(self._facts, width - 3)]
