"""What most tests start from: an empty ledger in a folder of its own, with a clock that stands still."""

import random
import shutil
from collections.abc import Awaitable, Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from buildlog.ledger import Ledger, Outcome
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.terms import Moment, moment

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
MASHED_OFTEN = ("enter",) * 6 + ("escape",) * 2 + ("-", ".", "5", "tab", "shift+tab")
"""Beside every key that means something anywhere."""
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


@pytest.fixture
def mash(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Awaitable[None]]:
    """``await mash(pilot, seed, 200)``: keys at random in bursts, rubbish typed and pasted, the window resized.

    In a folder of its own: there is a key that writes a file.
    """
    from textual.events import Paste

    from buildlog.screens.keys import KEYS

    monkeypatch.chdir(tmp_path)
    keys_mashed = sorted({name for key in KEYS for name in key.keys} - {QUIT}) + list(MASHED_OFTEN)

    async def burst(pilot: Any, seed: int, keys: int) -> None:
        chance = random.Random(seed)
        for number in range(keys):
            match chance.randrange(40):
                case 0:
                    await pilot.resize_terminal(*chance.choice(WINDOWS))
                case 1:
                    pilot.app.post_message(Paste(chance.choice(RUBBISH) * chance.choice((1, 1000))))
                case 2 | 3:
                    await pilot.press(*filter(str.isprintable, chance.choice(RUBBISH)))
                case _:
                    await pilot.press(chance.choice(keys_mashed))
            if number % 5 == 0:
                await pilot.pause(0.02)
        await pilot.pause(0.2)

    return burst
