"""What a command works with: the ledger that was named, and where words go."""

import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from buildlog.ledger import Ledger
    from buildlog.status.status import Status


_STEERING = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069]")
"""Control characters but the end of a line, and those that turn the direction of text."""


@dataclass(slots=True)
class Chosen:
    """What was said before the command: ``--ledger PATH``."""

    ledger: Path | None = None


chosen = Chosen()


def say(text: str) -> None:
    """Talk to the person: standard error, so that data can be piped. What was typed cannot steer the terminal."""
    print(_STEERING.sub(" ", text), file=sys.stderr, flush=True)


@contextmanager
def open_ledger(path: Path | None = None) -> "Iterator[Ledger]":
    """The ledger at ``path``, else the one named by --ledger, by BUILDLOG_LEDGER, else the usual place."""
    from buildlog.ledger import Ledger

    ledger = Ledger.open(path or chosen.ledger)
    try:
        yield ledger
    finally:
        ledger.close()


def status_of(ledger: "Ledger") -> "Status":
    from buildlog.status.status import take_stock  # writing down a fact seldom needs it

    with ledger.understood():
        return take_stock(ledger.snapshot(), ledger.now())
