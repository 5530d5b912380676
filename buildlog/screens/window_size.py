"""A window whose size changes several times in a row, as while it is dragged."""

from __future__ import annotations

from textual.events import Event, Resize
from textual.message_pump import MessagePump


class NewestSize(MessagePump):
    """Of a screen: passes by a size that the window has no more.

    Each size that a screen takes is told to it once more when it is laid out. Two that are still to come would
    follow each other for ever, most easily beneath a question, where the question's lay it out as well.
    """

    async def on_event(self, event: Event) -> None:
        if not isinstance(event, Resize) or event.size == self.app.size:
            await super().on_event(event)
