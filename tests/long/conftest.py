"""The demo, laid once: each test that may write it has a copy."""

import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from buildlog.demo import lay_demo
from buildlog.ledger import Ledger

PINNED = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


@pytest.fixture(scope="session")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    ledger = Ledger.open(tmp_path_factory.mktemp("laid") / "demo.db", clock=lambda: PINNED)
    lay_demo(ledger)
    ledger.close()
    return ledger.path


@pytest.fixture
def demo(laid: Path, tmp_path: Path) -> Iterator[Ledger]:
    """The demo as of 2026-11-25T12:00:00Z."""
    copied = Path(shutil.copy(laid, tmp_path / "demo.db"))
    ledger = Ledger.open(copied, tmp_path / "backups", lambda: PINNED)
    yield ledger
    ledger.close()
