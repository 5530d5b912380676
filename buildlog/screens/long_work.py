"""Work that may take long, off the screen's thread: how far it is is told meanwhile, and a key stops it."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import TypeVar

from buildlog.errors import Stopped
from buildlog.watching import watched

T = TypeVar("T")
FIRST_AFTER_SECONDS, THEN_EVERY_SECONDS = 1.0, 0.5


class LongWork:
    """One piece of work; `stop` ends it at its next step, and it raises Stopped with all rolled back."""

    def __init__(self, words: str) -> None:
        self._words, self._far, self._stopped = words, "", False
        self.is_told = False

    def stop(self) -> None:
        self._stopped = True

    async def run(self, work: Callable[[], T], tell: Callable[[str], None]) -> T:
        """What takes less than a second is not told."""
        task = asyncio.create_task(asyncio.to_thread(self._watched, work))
        wait = FIRST_AFTER_SECONDS
        while not (await asyncio.wait((task,), timeout=wait))[0]:
            self.is_told = True
            tell(f"{self._words} …{self._far} {{back}} stops it.")
            wait = THEN_EVERY_SECONDS
        return task.result()

    def _watched(self, work: Callable[[], T]) -> T:
        with watched(self._goes_on):
            return work()

    def _goes_on(self, done: int, of: int) -> None:
        if self._stopped:
            raise Stopped
        self._far = f" {done} of {of}." if of else self._far
