"""The line above the keys: what was said last, else what is to be known of the ledger.

said.say("Finished F1 Shins: 6 pieces.", Tone.GOOD)
"""

from __future__ import annotations

from collections.abc import Sequence

from buildlog.screens.widgets.span_line import SpanLine
from buildlog.screens.widgets.tones import SIGNS, Tone

READING = "reading the ledger …"


class SaidLine(SpanLine):
    """One line. `stand` is what it says while there is nothing newer."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._stands: tuple[str, Tone] = (READING, Tone.FAINT)
        self._said: tuple[str, Tone] | None = None

    def stand(self, text: str, tone: Tone = Tone.FAINT) -> None:
        self._stands = text, tone
        self.refresh()

    def say(self, text: str, tone: Tone = Tone.PLAIN) -> None:
        self._said = text, tone
        self.refresh()

    def spans(self, width: int) -> Sequence[tuple[str, Tone]]:
        text, tone = self._said or self._stands
        sign = f"{SIGNS[tone]} " if tone in SIGNS else ""
        return [("  ", Tone.PLAIN), (sign + text, tone)]
