"""How far long work is, told on a terminal while a person waits for it."""

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

from buildlog.commands.session import say
from buildlog.watching import watched

FIRST_AFTER_SECONDS, THEN_EVERY_SECONDS = 1.0, 0.2
CLEARED = "\r\x1b[K"


@contextmanager
def told_while(words: str) -> Iterator[None]:
    """``words: 40 %`` on one line of standard error, that goes when the work ends; Ctrl-C says what became of it."""
    telling = Telling(words)
    try:
        with watched(telling.goes_on):
            yield
    except KeyboardInterrupt:
        telling.clear()
        say("Nothing was changed.")
        raise
    finally:
        telling.clear()


class Telling:
    """What takes less than a second is not worth a line; nor is anything where nobody looks."""

    def __init__(self, words: str) -> None:
        self._words, self._next = words, time.monotonic() + FIRST_AFTER_SECONDS
        self._stands = False

    def goes_on(self, done: int, of: int) -> None:
        if not of or time.monotonic() < self._next or not sys.stderr.isatty():
            return
        self._next = time.monotonic() + THEN_EVERY_SECONDS
        self._stands = True
        print(f"{CLEARED}{self._words}: {done * 100 // of} %", end="", file=sys.stderr, flush=True)

    def clear(self) -> None:
        if self._stands:
            print(CLEARED, end="", file=sys.stderr, flush=True)
        self._stands = False
