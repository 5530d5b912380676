"""One question for one key: pressed twice before its question stands, a key opens it once."""

from __future__ import annotations

from typing import Any
from weakref import WeakSet

from textual.app import App
from textual.screen import Screen
from textual.worker import Worker, get_current_worker


class OneQuestionApp(App[None]):
    """Where a question is open, what was begun beneath it does not open its first one over it.

    What has asked already goes on asking, what a question itself asks comes over it, and what only tells something
    (that a wish was refused) is told whatever is open.
    """

    def __init__(self) -> None:
        super().__init__()
        self._open: list[Screen[Any]] = []
        self._have_asked: WeakSet[Worker[Any]] = WeakSet()

    async def push_screen_wait(self, screen: Screen[Any] | str, *, mode: str | None = None) -> Any:
        """The answer; None, as if it had been left, where another question was first."""
        if not isinstance(screen, Screen) or not getattr(screen, "ASKS", True):
            return await super().push_screen_wait(screen, mode=mode)
        worker = get_current_worker()
        begun_beneath = self._open and self._open[-1] not in worker.node.ancestors_with_self
        if begun_beneath and worker not in self._have_asked:
            return None
        self._have_asked.add(worker)
        self._open.append(screen)
        try:
            return await super().push_screen_wait(screen, mode=mode)
        finally:
            self._open.remove(screen)
