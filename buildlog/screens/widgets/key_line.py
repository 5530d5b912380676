"""The last line of a screen: its keys, drawn from KEYS, cut with `…` between two keys, never within one.

yield KeyLine(Scope.TODAY)          # and key_line.show(Scope.PRINTS) where the same line serves another view
"""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.message import Message

from buildlog.screens.keys import Key, Scope, in_force
from buildlog.screens.own_keys import as_set, own_keys
from buildlog.screens.widgets.cells import CUT_SIGN, width_of
from buildlog.screens.widgets.span_line import SpanLine
from buildlog.screens.widgets.tones import Tone

BEFORE, BETWEEN = " ", "  "
LAST = "help"  # stands at the end, however narrow the line


def keys_in(keys: Sequence[Key], width: int) -> tuple[list[Key], bool, list[Key]]:
    """The shown keys that fit in `width` cells, whether some do not, and those that stand at the end."""
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
    return kept, len(kept) < len(shown), ends


def key_spans(keys: Sequence[Key], width: int) -> list[tuple[str, Tone]]:
    """The shown keys as spans in at most `width` cells, the help last; left-out keys leave a `…`."""
    kept, is_cut, ends = keys_in(keys, width)
    sign = [(CUT_SIGN + BETWEEN, Tone.FAINT)] if is_cut else []
    return [*(span for key in kept for span in _spans(key)), *sign, *(span for key in ends for span in _spans(key))]


def key_at(keys: Sequence[Key], width: int, x: int) -> Key | None:
    """The key that is drawn at this cell."""
    kept, is_cut, ends = keys_in(keys, width)
    sign: list[Key | None] = [None] if is_cut else []
    for key in (*kept, *sign, *ends):
        x -= len(CUT_SIGN + BETWEEN) if key is None else _width(key) + len(BETWEEN)
        if x < 0:
            return key
    return None


def _width(key: Key) -> int:
    return width_of(f"{key.face} {key.label}")


def _spans(key: Key) -> list[tuple[str, Tone]]:
    return [(key.face, Tone.ACCENT), (f" {key.label}{BETWEEN}", Tone.FAINT)]


class KeyClicked(Message):
    """Somebody clicked on this key."""

    def __init__(self, key: Key) -> None:
        super().__init__()
        self.key = key


class KeyLine(SpanLine):
    """One line, docked at the bottom; a click on a key is as good as the key."""

    def __init__(self, scope: Scope, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._scope = scope

    def show(self, scope: Scope) -> None:
        self._scope = scope
        self.refresh()

    @property
    def _keys(self) -> tuple[Key, ...]:
        return as_set(in_force(self._scope), own_keys(self.app))

    def on_click(self, event: events.Click) -> None:
        key = key_at(self._keys, self.size.width - len(BEFORE), event.x - len(BEFORE))
        if key is not None and event.x >= len(BEFORE):
            self.post_message(KeyClicked(key))

    def spans(self, width: int) -> list[tuple[str, Tone]]:
        return [(BEFORE, Tone.PLAIN), *key_spans(self._keys, width - len(BEFORE))]
