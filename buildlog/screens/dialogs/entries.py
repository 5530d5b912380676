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
    """A few words side by side, the picked one in brackets; ← → and space go on, letters pick the word they begin.

    Letters after each other narrow the words; one letter again goes on to its next word, backspace takes one back.
    `text` is the picked word, empty for `–`, which is offered where the field may stay empty (- goes to it), and
    what was typed where no word begins so: the form then says that it is none of them.
    """

    picked: reactive[int] = reactive(0)
    typed: reactive[str] = reactive("")

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
        if self.typed and not self._fitting(self.typed):
            return self.typed
        return self._choices[self.picked] if self._choices else ""

    @property
    def shows_all(self) -> bool:
        """Whether all words have room in the line."""
        every = self._words(range(len(self._choices)))
        return sum(width_of(text) for text, _ in every) <= self.size.width

    def watch_picked(self) -> None:
        self.post_message(self.Changed(self))

    def watch_typed(self) -> None:
        self.post_message(self.Changed(self))

    def on_blur(self) -> None:
        if self._fitting(self.typed):
            self.typed = ""

    def on_key(self, event: events.Key) -> None:
        letter = (event.character or "").casefold() if event.is_printable else ""
        if self._goes_on_typing(event.key, letter):
            self._type(letter)
        elif event.key in ("right", "space"):
            self._go(1)
        elif event.key == "left":
            self._go(-1)
        elif event.key == "backspace" and self.typed:
            self._narrow(self.typed[:-1])
        elif event.key in ("delete", "backspace", "minus"):
            self.typed = ""
            self.picked = self._choices.index("") if "" in self._choices else self.picked
        elif letter:
            self._type(letter)
        else:
            return
        event.stop()
        event.prevent_default()

    def on_click(self) -> None:
        self._go(1)

    def _go(self, by: int) -> None:
        self.typed = ""
        self.picked = (self.picked + by) % len(self._choices)

    def _goes_on_typing(self, key: str, letter: str) -> bool:
        """A space or a dash within a word, as in «solvent bond»."""
        return key in ("space", "minus") and bool(self.typed) and bool(self._fitting(self.typed + letter))

    def _type(self, letter: str) -> None:
        """One letter alone goes to its next word; a second that goes with it narrows, else it stands for itself."""
        if len(self.typed) > 1 or (self.typed and self._fitting(self.typed + letter)):
            self._narrow(self.typed + letter)
            return
        found = self._fitting(letter)
        onward = [i for i in found if i > self.picked] if len(found) > 1 else found
        self.typed = letter
        self.picked = next(iter(onward or found), self.picked)

    def _narrow(self, typed: str) -> None:
        self.typed = typed
        if typed:
            self.picked = next(iter(self._fitting(typed)), self.picked)

    def _fitting(self, typed: str) -> list[int]:
        """The words that begin with it; where none does, those with a word within that does."""
        words = [(i, word.casefold()) for i, word in enumerate(self._choices) if word]
        first = [i for i, word in words if word.startswith(typed)]
        return first or [i for i, word in words if f" {typed}" in word or f"-{typed}" in word]

    def spans(self, width: int) -> list[tuple[str, Tone]]:
        found = self._fitting(self.typed) if self.typed else range(len(self._choices))
        if not found:
            return [(f"{self.typed}", Tone.STRONG), ("  is none of them; backspace", Tone.FAINT)]
        typed = [(f"{self.typed}  ", Tone.FAINT)] if self.typed else []
        spans = [*typed, *self._words(found)]
        if sum(width_of(text) for text, _ in spans) <= width:
            return spans
        return [*typed, *self._words([self.picked]), (f" {self.picked + 1} of {len(self._choices)}", Tone.FAINT)]

    def _words(self, shown: Sequence[int]) -> list[tuple[str, Tone]]:
        lit = Tone.ACCENT if self.has_focus else Tone.STRONG
        words = [(i, self._choices[i] or UNSET) for i in shown]
        return [(f"[{word}]", lit) if i == self.picked else (f" {word} ", Tone.FAINT) for i, word in words]
