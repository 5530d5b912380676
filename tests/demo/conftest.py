"""The demo laid once for all tests that only look at it."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest

from buildlog.demo import lay_demo
from buildlog.ledger import Ledger

PINNED = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)  # a Wednesday, 13:00 in Berlin

LayAt = Callable[[datetime], Ledger]


@contextmanager
def _laid(folder: Path, shows: datetime) -> Iterator[Ledger]:
    ledger = Ledger.open(folder / "demo.db", folder / "backups", lambda: shows)
    try:
        lay_demo(ledger)
        yield ledger
    finally:
        ledger.close()


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ledger]:
    """The demo as of 2026-11-25T12:00:00Z."""
    with _laid(tmp_path_factory.mktemp("demo"), PINNED) as ledger:
        yield ledger


@pytest.fixture(scope="session")
def another_demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ledger]:
    """The demo as of a night in April, after the clocks went forward: 00:20 in Berlin on 1 April 2027."""
    with _laid(tmp_path_factory.mktemp("another"), datetime(2027, 3, 31, 22, 20, tzinfo=UTC)) as ledger:
        yield ledger
