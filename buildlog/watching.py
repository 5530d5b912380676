"""How far long work is, told while it runs: whoever waits for it looks, and may stop it.

    with watched(lambda done, of: print(f"{done} of {of}")):
        ledger.record_all(wishes, "many")

What the watcher raises ends the work, and its unit of work is rolled back. Each thread has a watcher of its own.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar

GoesOn = Callable[[int, int], None]
"""Told how much is done, of how much; of 0 where that cannot be said."""


def _nobody(done: int, of: int) -> None:
    pass


_watcher: ContextVar[GoesOn] = ContextVar("watcher", default=_nobody)


def went_on(done: int, of: int) -> None:
    """Called by long work between its steps."""
    _watcher.get()(done, of)


def before_it_counts() -> None:
    """The last moment at which all of it can still be stopped."""
    _watcher.get()(0, 0)


@contextmanager
def watched(goes_on: GoesOn) -> Iterator[None]:
    token = _watcher.set(goes_on)
    try:
        yield
    finally:
        _watcher.reset(token)
