"""A bare app in our dress for widgets and questions; what they draw is read back as plain text.

`workshop` is a ledger with something in it, and `screens` runs the app on it.
"""

from __future__ import annotations

import shutil
import tomllib
from collections.abc import AsyncIterator, Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, ClassVar

import pytest
from textual.app import App, ComposeResult
from textual.message import Message
from textual.pilot import Pilot
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Input

from buildlog.ledger import Ledger
from buildlog.proposals.lines import Line
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.proposals.orders import PlaceOrder
from buildlog.proposals.printers import LoadSpool, PrinterDown
from buildlog.proposals.prints import FinishPrint, QueuePrint, StartPrint
from buildlog.proposals.spools import ReceiveSpool, WeighSpool
from buildlog.screens.app import Buildlog
from buildlog.screens.themes import DARK, SHELL, STYLES, dress
from buildlog.terms import moment


class Bench(App[None]):
    """Shows the widgets given, and keeps the messages that reach it and the answers of questions."""

    CSS_PATH: ClassVar = [SHELL, STYLES]

    def __init__(self, widgets: Iterable[Widget] = (), theme: Any = DARK) -> None:
        super().__init__()
        self._shown = tuple(widgets)
        self.heard: list[Message] = []
        self.answers: list[Any] = []
        dress(self, theme)

    def compose(self) -> ComposeResult:
        yield from self._shown

    def ask(self, question: Any) -> None:
        self.push_screen(question, self.answers.append)

    def on_grid_highlighted(self, message: Message) -> None:
        self.heard.append(message)

    def on_grid_chosen(self, message: Message) -> None:
        self.heard.append(message)

    def on_grid_marked(self, message: Message) -> None:
        self.heard.append(message)

    @property
    def lines(self) -> list[str]:
        """The whole screen as text, a line each, trailing blanks taken off."""
        strips = self.screen._compositor.render_strips()
        return ["".join(segment.text for segment in strip).rstrip() for strip in strips]


@pytest.fixture
def bench() -> Callable[..., Bench]:
    def make(*widgets: Widget, theme: Any = DARK) -> Bench:
        return Bench(widgets, theme)

    return make


@pytest.fixture
def press() -> Callable[[Pilot[None], str], Any]:
    """Press keys named in one text: `await press(pilot, "down space enter")`."""

    async def go(pilot: Pilot[None], keys: str) -> None:
        await pilot.press(*keys.split())
        await pilot.pause()

    return go


@pytest.fixture
def text_of() -> Callable[[Sequence[Any]], str]:
    """The text of segments that a painter made."""
    return lambda segments: "".join(segment.text for segment in segments)


START = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
"""What the standing clock of all tests shows."""


def lay_workshop(ledger: Ledger) -> None:
    """BIG prints both shins until 20:00 at home, four toes wait on TWIN, OLD is down, a crown is queued."""
    now = ledger.clock()

    def ago(**span: float) -> Any:
        return moment(now - timedelta(**span))

    rows = tomllib.loads((Path(__file__).parent / "workshop.toml").read_text("utf-8"))["row"]
    read = moment_reader(ledger.now(), "Europe/Berlin")
    forms = [form_from_texts(row["noun"], {k: v for k, v in row.items() if k != "noun"}, read) for row in rows]
    ledger.record_all([(Add(form), ago(days=20)) for form in forms], "lay the workshop")
    for wish, at in (
        (ReceiveSpool(material="PLA-AMBER", codes=("A1", "A2"), tare=200_000), ago(days=15)),
        (ReceiveSpool(material="ABS-BLACK", codes=("B1",), tare=200_000), ago(days=15)),
        (LoadSpool(printer="BIG", spool="A1"), ago(days=10)),
        (LoadSpool(printer="TWIN", spool="B1"), ago(days=10)),
        (StartPrint(printer="BIG", lines=(Line("BRIDGE"),), print_time=60), ago(days=3, hours=2)),
        (FinishPrint(printer="BIG"), ago(days=3)),
        (WeighSpool(spool="A1", gross=1_000_000), ago(days=2)),
        (StartPrint(printer="BIG", file="F-SHIN"), ago(hours=3)),
        (StartPrint(printer="TWIN", file="F-TOES"), ago(hours=5)),
        (QueuePrint(file="F-CROWN"), ago(hours=1)),
        (PrinterDown(printer="OLD", why="fan"), ago(days=1)),
        (PlaceOrder(lines=(Line("ABS-BLACK", quantity=2),), expected=moment(now)), ago(days=4)),
    ):
        ledger.record(wish, at)


@pytest.fixture(scope="session")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The workshop, laid once: tests work on copies."""
    folder = tmp_path_factory.mktemp("laid")
    ledger = Ledger.open(folder / "ledger.db", folder / "backups", lambda: START)
    lay_workshop(ledger)
    ledger.close()
    return folder / "ledger.db"


@pytest.fixture
def workshop(laid: Path, tmp_path: Path, clock: Callable[[], datetime]) -> Iterator[Ledger]:
    shutil.copy(laid, tmp_path / "ledger.db")
    opened = Ledger.open(tmp_path / "ledger.db", tmp_path / "backups", clock)
    yield opened
    opened.close()


Run = Callable[..., AbstractAsyncContextManager[Any]]


@pytest.fixture
def screens() -> Run:
    """``async with screens(workshop, size=(80, 24)) as on:`` … the app's driver with its Status in view."""

    @asynccontextmanager
    async def run(ledger: Ledger, size: tuple[int, int] = (80, 24)) -> AsyncIterator[OnScreens]:
        app = Buildlog(ledger)
        async with app.run_test(size=size) as pilot:
            on = OnScreens(app, pilot)
            await on.settle()
            yield on

    return run


PATIENCE_SECONDS = 20
STILL_FOR = 3
"""So many looks in a row find nothing under way: a question that closes has let its worker go on by then."""


MOST_WORDS = 20
"""More than any field offers to choose from."""


class OnScreens:
    """Presses keys and waits until what they set off has ended."""

    def __init__(self, app: Buildlog, pilot: Pilot[None]) -> None:
        self.app, self.pilot = app, pilot

    async def press(self, keys: str) -> None:
        for key in keys.split():
            await self.pilot.press(key)
            if not isinstance(self.app.focused, Input):  # typing sets nothing off
                await self.settle()
        await self.settle()

    async def go_to_noun(self, noun: str) -> None:
        """Things, with the cursor on a noun."""
        await self.press("9")
        self.app.screen.nouns.move_to(f"noun:{noun}")
        await self.settle()

    async def type(self, text: str) -> None:
        """Each letter as its key."""
        named = {" ": "space", ":": "colon", ",": "comma", ".": "full_stop", "-": "minus", "+": "plus"}
        await self.press(" ".join(named.get(letter, letter) for letter in text))

    async def settle(self) -> None:
        """Wait for reading and recording; what waits for the answer to a question is let be."""
        still = 0
        for _ in range(400):
            await self.pilot.pause(0.01)
            asked = isinstance(self.app.screen, ModalScreen)
            busy = [w for w in self.app.workers if w.is_running and not (asked and w.group == "default")]
            still = 0 if busy or self.app.status is None else still + 1
            if still == STILL_FOR:
                break

    async def find(self, label: str) -> None:
        """By ctrl+p, with the cursor on what is called just that: others may have the name in their words."""
        await self.press("ctrl+p")
        await self.write(label)
        grid = self.app.screen.query_one("#choices")
        number = next(n for n, choice in enumerate(self.app.screen._choices) if choice.label == label)
        assert str(number) in grid.shown_keys
        grid.move_to(str(number))

    async def until(self, words: str) -> None:
        """Wait until this stands on the screen; what never comes is told with what stands there instead."""
        for _ in range(PATIENCE_SECONDS * 20):
            if words in self.text or words in self.sentences:
                return
            await self.pilot.pause(0.05)
        raise AssertionError(f"«{words}» never came; there is:\n{self.text}")

    async def write(self, text: str) -> None:
        """Type it, letter by letter."""
        await self.pilot.press(*("space" if letter == " " else letter for letter in text))

    async def go_to_field(self, name: str) -> None:
        """By ↓, or by ↑ where the form has been there already."""
        names = [entry.name for entry in self.app.screen.query("TypedEntry, PickedEntry")]
        onward = names.index(name) - names.index(self.app.focused.name)
        await self.pilot.press(*(["down"] * onward or ["up"] * -onward))
        assert self.app.focused.name == name

    async def fill(self, texts: Mapping[str, str]) -> None:
        """Go down the form and type what is given for each field, by keys alone."""
        for name, text in texts.items():
            await self.go_to_field(name)
            entry = self.app.focused
            if hasattr(entry, "picked"):
                presses = 0
                while entry.text != text:
                    await self.pilot.press("right")
                    presses += 1
                    assert presses < MOST_WORDS, f"no «{text}» at {name}"
            elif text:
                await self.write(text)
            else:
                await self.pilot.press("delete")
        await self.settle()

    @property
    def lines(self) -> list[str]:
        """The whole screen as text, a line each, trailing blanks taken off."""
        strips = self.app.screen._compositor.render_strips()
        return ["".join(segment.text for segment in strip).rstrip() for strip in strips]

    @property
    def text(self) -> str:
        return "\n".join(self.lines)

    @property
    def sentences(self) -> str:
        """The text without edges and line breaks."""
        return " ".join(self.text.replace("▌", " ").split())
