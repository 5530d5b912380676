"""The least Textual app: one line of text that a key changes. The measure for ours."""

from textual.app import App, ComposeResult
from textual.events import Key
from textual.widgets import Static


class Empty(App[None]):
    def compose(self) -> ComposeResult:
        yield Static("nothing here")

    def on_key(self, event: Key) -> None:
        self.query_one(Static).update(f"{event.key} pressed at {event.time}")


if __name__ == "__main__":
    Empty().run()
