"""Above the keys: for a while what was said last, else the row under the cursor where it is cut.

said.say("Finished F1 Shins: 6 pieces.", Tone.GOOD)
"""

from __future__ import annotations

from textual.timer import Timer

from buildlog.screens.widgets.cells import wrapped
from buildlog.screens.widgets.span_line import SpanLine, Spans
from buildlog.screens.widgets.tones import SIGNS, Tone

READING = "reading the ledger …"
SAID_FOR_SECONDS = 10
BESIDE = 2
"""Blank cells before the text."""


class SaidLine(SpanLine):
    """One line, or as many as the text takes, up to three. `stand` is what it says while there is nothing newer."""

    LINES_AT_MOST = 3

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._stands: tuple[str, Tone] = (READING, Tone.FAINT)
        self._said: tuple[str, Tone] | None = None
        self._hush: Timer | None = None

    def stand(self, text: str, tone: Tone = Tone.FAINT) -> None:
        if (text, tone) != self._stands:
            self._stands = text, tone
            self.shows_other()

    def say(self, text: str, tone: Tone = Tone.PLAIN) -> None:
        self._said = text, tone
        self.shows_other()
        if self._hush is not None:
            self._hush.stop()
        self._hush = self.set_timer(SAID_FOR_SECONDS, self._forget)

    def _forget(self) -> None:
        self._said = self._hush = None
        self.shows_other()

    def lines(self, width: int) -> list[Spans]:
        text, tone = self._said or self._stands
        sign = f"{SIGNS[tone]} " if tone in SIGNS else ""
        told = wrapped(sign + text, max(1, width - BESIDE))
        most = self.LINES_AT_MOST
        shown = [*told[: most - 1], " ".join(told[most - 1 :])]  # what is left over is drawn cut
        return [[("  ", Tone.PLAIN), (line, tone)] for line in shown if line] or [()]
