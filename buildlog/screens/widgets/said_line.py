"""The line above the keys: for a while what was said last, else the row under the cursor where it is cut.

said.say("Finished F1 Shins: 6 pieces.", Tone.GOOD)
"""

from __future__ import annotations

from collections.abc import Sequence

from textual.timer import Timer

from buildlog.screens.widgets.span_line import SpanLine
from buildlog.screens.widgets.tones import SIGNS, Tone

READING = "reading the ledger …"
SAID_FOR_SECONDS = 10


class SaidLine(SpanLine):
    """One line. `stand` is what it says while there is nothing newer."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._stands: tuple[str, Tone] = (READING, Tone.FAINT)
        self._said: tuple[str, Tone] | None = None
        self._hush: Timer | None = None

    def stand(self, text: str, tone: Tone = Tone.FAINT) -> None:
        if (text, tone) != self._stands:
            self._stands = text, tone
            self.refresh()

    def say(self, text: str, tone: Tone = Tone.PLAIN) -> None:
        self._said = text, tone
        self.refresh()
        if self._hush is not None:
            self._hush.stop()
        self._hush = self.set_timer(SAID_FOR_SECONDS, self._forget)

    def _forget(self) -> None:
        self._said = self._hush = None
        self.refresh()

    def spans(self, width: int) -> Sequence[tuple[str, Tone]]:
        text, tone = self._said or self._stands
        sign = f"{SIGNS[tone]} " if tone in SIGNS else ""
        return [("  ", Tone.PLAIN), (sign + text, tone)]
