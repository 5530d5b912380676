"""The demo, laid for each test that may write it."""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from buildlog.demo import lay_demo
from buildlog.ledger import Ledger


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[Ledger]:
    """The demo as of 2026-11-25T12:00:00Z."""
    ledger = Ledger.open(
        tmp_path / "demo.db", tmp_path / "backups", lambda: datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
    )
    lay_demo(ledger)
    yield ledger
    ledger.close()
