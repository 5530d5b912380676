"""What most tests start from: an empty ledger in a folder of its own, with a clock that stands still."""

import os
import random
import shutil
from collections import deque
from collections.abc import Awaitable, Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from buildlog.ledger import Ledger, Outcome
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.terms import Moment, moment

settings.register_profile("buildlog", deadline=None)  # a shared machine is slow at times
settings.load_profile("buildlog")

IN_MEMORY = Path("/dev/shm")
ROOM_WANTED = 2_000_000_000  # bytes; all tests together leave far less there at any one time
if os.access(IN_MEMORY, os.W_OK) and shutil.disk_usage(IN_MEMORY).free > ROOM_WANTED:
    # a ledger waits for the disk at every change, and no test needs what it wrote to outlast the machine
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(IN_MEMORY))

WORKERS_A_CORE = 2  # tests of screens wait more than they compute: half of the cores' time lay idle with one


def pytest_xdist_auto_num_workers() -> int:
    """How many workers ``-n auto`` starts."""
    return WORKERS_A_CORE * len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else 4


START = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)  # a Wednesday, 13:00 in Berlin


class StandingClock:
    """Shows the same moment until it is moved on."""

    def __init__(self, shows: datetime = START) -> None:
        self.shows = shows

    def __call__(self) -> datetime:
        return self.shows

    def move_on(self, **span: float) -> Moment:
        """Later by ``days=1``, ``hours=2`` or ``minutes=30``; returns the moment it shows then."""
        self.shows += timedelta(**span)
        return moment(self.shows)

    def ago(self, **span: float) -> Moment:
        """The moment that long before the one it shows."""
        return moment(self.shows - timedelta(**span))


AddNoun = Callable[..., Outcome]


@pytest.fixture
def clock() -> StandingClock:
    return StandingClock()


@pytest.fixture(scope="session")
def empty_ledger_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A ledger file as it is made; copied, because making one takes longer than most tests."""
    folder = tmp_path_factory.mktemp("empty")
    Ledger.open(folder / "ledger.db", folder / "backups", StandingClock()).close()
    return folder / "ledger.db"


@pytest.fixture
def ledger(tmp_path: Path, clock: StandingClock, empty_ledger_file: Path) -> Iterator[Ledger]:
    """An empty ledger at 2026-11-25T12:00:00Z."""
    shutil.copy(empty_ledger_file, tmp_path / "ledger.db")
    opened = Ledger.open(tmp_path / "ledger.db", tmp_path / "backups", clock)
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def kept_ledgers(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the ledgers that many tests start from, each once it has been recorded."""
    return tmp_path_factory.mktemp("kept")


@pytest.fixture
def once(kept_ledgers: Path, ledger: Ledger) -> Callable[[str, Callable[[], object]], Ledger]:
    """``once("shop", record)``: the ledger with what `record` puts there; recorded once, then copied."""

    def filled(name: str, record: Callable[[], object]) -> Ledger:
        kept = kept_ledgers / f"{name}.db"
        written = Path(f"{ledger.path}-wal")
        untouched = not written.exists() or not written.stat().st_size
        if kept.exists() and untouched:
            shutil.copy(kept, ledger.path)
            return ledger
        record()
        if untouched:
            ledger.backup(kept)
        return ledger

    return filled


@pytest.fixture(scope="session")
def laid_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo, laid once for all tests: those that may write it have a copy."""
    from buildlog.demo import lay_demo

    folder = tmp_path_factory.mktemp("laid-demo")
    laid = Ledger.open(folder / "demo.db", folder / "backups", StandingClock())
    lay_demo(laid)
    laid.close()
    return laid.path


@pytest.fixture
def demo(laid_demo: Path, tmp_path: Path, clock: StandingClock) -> Iterator[Ledger]:
    """A copy of the demo as of 2026-11-25T12:00:00Z."""
    copied = Path(shutil.copy(laid_demo, tmp_path / "demo.db"))
    opened = Ledger.open(copied, tmp_path / "backups", clock)
    yield opened
    opened.close()


@pytest.fixture
def typed(ledger: Ledger) -> Callable[..., Any]:
    """``typed("build", code="LB", name="Beetle")``: a form from texts, moments in words of the home zone."""

    def form(noun: str, **texts: str) -> Any:
        return form_from_texts(noun, texts, moment_reader(ledger.now(), "Europe/Berlin"))

    return form


@pytest.fixture
def add(ledger: Ledger, typed: Callable[..., Any]) -> AddNoun:
    """``add("build", code="LB", name="Beetle", at=clock.ago(days=2))``: texts as typed in a form."""

    def add_noun(noun: str, at: Moment | None = None, **texts: str) -> Outcome:
        return ledger.record(Add(typed(noun, **texts)), at)

    return add_noun


QUIT = "q"
MASHED_OFTEN = ("enter",) * 6 + ("escape",) * 2 + ("1", "2", "-", ".", "5", "tab", "shift+tab")
"""Beside every key that means something anywhere, but for those that lead to a screen: they begin a burst."""
RUBBISH = (
    "9" * 30,
    "-6h",
    "[/]",
    "[bold]x",
    "\u202eabc",
    "日本語",
    "\x1b[31m",
    "9999-12-31",
    "1e99",
    "#3",
    "٣",
    "'; --",
)
WINDOWS = ((80, 24), (40, 10), (200, 60), (120, 40))
LONGEST_BURST = 20
LOOKS_FOR_A_SCREEN = 40
DEEPEST = 5
"""More than the questions that lie on each other, with the lists of names that are open in them."""
PAUSES = (0, 0, 0.02, 0.3)
"""Seconds after a burst: mostly the next one comes before all that the last one set off has ended."""


def pressed(key: str) -> Any:
    """A key as the terminal reports it."""
    from textual.events import Key
    from textual.keys import _character_to_key

    char = " " if key == "space" else key if len(key) == 1 else None
    return Key(_character_to_key(key) if len(key) == 1 else key, char)


@pytest.fixture
def mash(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Awaitable[set[str]]]:
    """``await mash(pilot, seed, 200)``: keys at random in bursts, rubbish typed and pasted, the window resized.

    Nothing waits for a single key. In a folder of its own: some keys write a file. Returns the names of what was in
    view after a burst: screens and questions.
    """
    from textual.events import Paste

    from buildlog.screens.keys import KEYS

    monkeypatch.chdir(tmp_path)
    places = [key.keys[0] for key in KEYS if key.id.startswith("go_")] + [":"]
    mashed = sorted({name for key in KEYS for name in key.keys} - {QUIT, *places}) + list(MASHED_OFTEN)

    async def bursts(pilot: Any, seed: int, keys: int) -> set[str]:
        async def send(burst: list[str], pause: float) -> None:
            for key in burst:
                pilot.app.post_message(pressed(key))
            await pilot.pause(pause)
            seen.update((pilot.app.current_mode, type(pilot.app.screen).__name__))

        async def go() -> None:  # to the next place; after a question that is not left yet, to the same again
            for _ in range(DEEPEST if pilot.app.screen.is_modal else 1):
                await send(["escape"], 0.02)
            before, looks = pilot.app.screen, LOOKS_FOR_A_SCREEN
            await send([ways[0]], 0.05)
            while pilot.app.screen is before and (looks := looks - 1):  # under load it comes later
                await send([], 0.05)
            ways.rotate(0 if before.is_modal else -1)

        chance, seen, left = random.Random(seed), set[str](), keys
        ways = deque(chance.sample(places, len(places)))
        while left > 0:
            burst = chance.choices(mashed, k=min(left, chance.randint(1, LONGEST_BURST)))
            left -= len(burst)
            match chance.randrange(10):
                case 0:
                    await pilot.resize_terminal(*chance.choice(WINDOWS))
                case 1:
                    pilot.app.post_message(Paste(chance.choice(RUBBISH) * chance.choice((1, 1000))))
                case 2:
                    burst += filter(str.isprintable, chance.choice(RUBBISH))
                case 3 | 4 | 5:
                    await go()
            await send(burst, chance.choice(PAUSES))
        await pilot.pause(0.2)
        return seen

    return bursts
