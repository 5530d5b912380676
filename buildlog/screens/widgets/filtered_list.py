"""A LineList that is filtered by typing: `/` begins, enter keeps the filter, esc shows all rows again."""

from __future__ import annotations

from textual import events

from buildlog.screens.widgets.line_list import LineList


class FilteredList(LineList):
    """While `typing`, keys that write go into the filter; the others still move the cursor.

    Where `enter_goes`, enter takes the row under the cursor at once, rather than only keep the filter.
    """

    enter_goes = False

    def set_filter(self, text: str) -> None:
        """Show only rows that hold every word of the text, with the rows above them; empty shows all."""
        self.change(lambda: self.view.set_filter(text))

    def action_filter(self) -> None:
        self._type_filter(True)

    def on_key(self, event: events.Key) -> None:
        if event.key == "escape" and self.filtering:
            self.typing = False
            self.set_filter("")
        elif not self.typing or not self._typed(event):
            return
        event.stop()
        event.prevent_default()

    def on_paste(self, event: events.Paste) -> None:
        if self.typing:
            self.set_filter(self.view.filter_text + " ".join(event.text.split()))
            event.stop()

    def on_blur(self) -> None:
        self._type_filter(False)

    def _type_filter(self, typing: bool) -> None:
        self.typing = typing
        self.fit_size()

    def _typed(self, event: events.Key) -> bool:
        """Take a key into the filter; False for keys that are not for typing."""
        text = self.view.filter_text
        if event.key == "enter":
            self._type_filter(False)
            return not self.enter_goes
        elif event.key == "backspace":
            self.set_filter(text[:-1])
        elif event.is_printable and event.character:
            self.set_filter(text + event.character)
        else:
            return False
        return True
