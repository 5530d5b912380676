"""The last line of a screen: its keys, drawn from KEYS, cut with `…` between two keys, never within one.

yield KeyLine(Scope.TODAY)          # and key_line.show(Scope.PRINTS) where the same line serves another view
"""

from __future__ import annotations

from collections.abc import Sequence

from buildlog.screens.keys import Key, Scope, in_force
from buildlog.screens.own_keys import as_set, own_keys
from buildlog.screens.widgets.cells import CUT_SIGN, width_of
from buildlog.screens.widgets.span_line import SpanLine
from buildlog.screens.widgets.tones import Tone

BETWEEN = "  "
LAST = "help"  # stands at the end, however narrow the line


def key_spans(keys: Sequence[Key], width: int) -> list[tuple[str, Tone]]:
    """The shown keys as spans in at most `width` cells, the help last; left-out keys leave a `…`."""
    shown = [key for key in keys if key.shown and key.id != LAST]
    ends = [key for key in keys if key.id == LAST]
    room = width - sum(_width(key) + len(BETWEEN) for key in ends)
    kept: list[Key] = []
    for i, key in enumerate(shown):
        sign = 0 if i + 1 == len(shown) else len(CUT_SIGN + BETWEEN)
        if room - _width(key) - len(BETWEEN) < sign:
            break
        kept.append(key)
        room -= _width(key) + len(BETWEEN)
    spans = [span for key in kept for span in _spans(key)]
    if len(kept) < len(shown):
        spans.append((CUT_SIGN + BETWEEN, Tone.FAINT))
    return spans + [span for key in ends for span in _spans(key)]


def _width(key: Key) -> int:
    return width_of(f"{key.face} {key.label}")


def _spans(key: Key) -> list[tuple[str, Tone]]:
    return [(key.face, Tone.ACCENT), (f" {key.label}{BETWEEN}", Tone.FAINT)]


class KeyLine(SpanLine):
    """One line, docked at the bottom."""

    def __init__(self, scope: Scope, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._scope = scope

    def show(self, scope: Scope) -> None:
        self._scope = scope
        self.refresh()

    def spans(self, width: int) -> list[tuple[str, Tone]]:
        return [(" ", Tone.PLAIN), *key_spans(as_set(in_force(self._scope), own_keys(self.app)), width - 1)]
