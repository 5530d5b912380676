"""The two ways to fill in a field: typing, or choosing among a few words in place. Both are one line high."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.message import Message
from textual.reactive import reactive
from textual.widgets import Input

from buildlog.screens.widgets.cells import width_of
from buildlog.screens.widgets.span_line import SpanLine
from buildlog.screens.widgets.tones import Tone

UNSET = "–"


class TypedEntry(Input):
    """An input line without a box. `offer` is what it would read with the name that is offered; → takes it."""

    def __init__(self, name: str, value: str) -> None:
        super().__init__(value, name=name, compact=True, select_on_focus=True)
        self.offer = ""

    @property
    def text(self) -> str:
        return self.value

    def take_offer(self) -> bool:
        """Read what is offered; False where nothing is."""
        if not self.offer:
            return False
        self.value, self.offer = self.offer, ""
        self.cursor_position = len(self.value)
        return True

    def action_cursor_right(self, select: bool = False) -> None:
        if select or self.cursor_position < len(self.value) or not self.take_offer():
            super().action_cursor_right(select)


class PickedEntry(SpanLine, can_focus=True):
    """A few words side by side, the picked one in brackets; ← → and space go on, a letter goes to its word.

    `text` is the picked word, empty for `–`, which is offered where the field may stay empty; - goes to it.
    """

    picked: reactive[int] = reactive(0)

    class Changed(Message):
        """Another word was picked."""

        def __init__(self, entry: PickedEntry) -> None:
            super().__init__()
            self.entry = entry

    def __init__(self, name: str, value: str, choices: Sequence[str], optional: bool) -> None:
        super().__init__(name=name)
        self._choices = (("",) if optional else ()) + tuple(choices)
        self.set_reactive(PickedEntry.picked, self._choices.index(value) if value in self._choices else 0)

    @property
    def text(self) -> str:
        return self._choices[self.picked] if self._choices else ""

    def watch_picked(self) -> None:
        self.post_message(self.Changed(self))

    def on_key(self, event: events.Key) -> None:
        if event.key in ("right", "space"):
            self._go(1)
        elif event.key == "left":
            self._go(-1)
        elif event.key in ("delete", "backspace", "minus"):
            self.picked = self._choices.index("") if "" in self._choices else self.picked
        elif event.is_printable:
            self._go_to((event.character or "").casefold())
        else:
            return
        event.stop()
        event.prevent_default()

    def on_click(self) -> None:
        self._go(1)

    def _go(self, by: int) -> None:
        self.picked = (self.picked + by) % len(self._choices)

    def _go_to(self, letter: str) -> None:
        """The next word that begins with it; where none does, the next with a word within that does."""
        onward = [(self.picked + 1 + i) % len(self._choices) for i in range(len(self._choices))]
        words = [(i, self._choices[i].casefold()) for i in onward]
        first = [i for i, word in words if word.startswith(letter)]
        within = [i for i, word in words if f" {letter}" in word or f"-{letter}" in word]
        self.picked = next(iter(first + within), self.picked)

    def spans(self, width: int) -> list[tuple[str, Tone]]:
        spans = self._words(range(len(self._choices)))
        if sum(width_of(text) for text, _ in spans) <= width:
            return spans
        return [*self._words([self.picked]), (f" {self.picked + 1} of {len(self._choices)}", Tone.FAINT)]

    def _words(self, shown: Sequence[int]) -> list[tuple[str, Tone]]:
        lit = Tone.ACCENT if self.has_focus else Tone.STRONG
        words = [(i, self._choices[i] or UNSET) for i in shown]
        return [(f"[{word}]", lit) if i == self.picked else (f" {word} ", Tone.FAINT) for i, word in words]
