"""What a screen asks a person, and what it wishes of the ledger."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from typing import TYPE_CHECKING, Any, TypeVar, cast

from textual.screen import Screen

from buildlog.screens.widgets.tones import Tone
from buildlog.terms import Moment

if TYPE_CHECKING:
    from buildlog.ledger import Outcome
    from buildlog.screens.app import Buildlog
    from buildlog.screens.dialogs.choose import Choice
    from buildlog.status.status import Status

T = TypeVar("T")
CALLED = {"job": "print", "file": "print file", "curing": "position"}
"""Keys of rows that call a thing otherwise than notes do."""
Sure = Callable[[Any, Any], Awaitable[bool]]


class WishingScreen(Screen[None]):
    """Questions and wishes are to be awaited in a worker."""

    @property
    def live(self) -> Buildlog:
        return cast("Buildlog", self.app)

    @property
    def status(self) -> Status | None:
        return self.live.status

    async def wish(self, wish: Any, at: Moment | None = None) -> Outcome | None:
        """Record it (from a worker); None where it was refused, which has been said by then."""
        return await self.live.record(wish, at)

    async def ask(self, kind: type[Any], title: str, sure: Sure | None = None, **given: Any) -> Outcome | None:
        """Ask a wish by its table of fields and record it; see `asking.ask_wish` for what can be given.

        Where it is refused, or not meant (`sure` asks), the form comes back as it was filled in.
        """
        from buildlog.proposals.field import fields_of
        from buildlog.screens.asking import ask_wish  # forms come after the first frame

        while (asked := await ask_wish(self.live, kind, title, **given)) is not None:
            outcome = None
            if sure is None or await sure(self, asked.wish):
                outcome = await self.wish(asked.wish, asked.at)
            if outcome is not None:
                return outcome
            known = given.get("values") or {}
            names = [field.name for field in fields_of(kind)]
            only = given.get("only") or [name for name in names if name not in known]
            typed = {name: getattr(asked.wish, name) for name in names}
            given |= {"values": {**known, **typed}, "at": asked.at, "only": only}
        return None

    async def pick(self, title: str, choices: Sequence[Choice[T]], **given: Any) -> T | None:
        """What is picked of these; None where the question was left. See `Choose` for what can be given.

        `empty` is said where there is nothing to pick, with what to do instead.
        """
        from buildlog.screens.dialogs.choose import Choose

        empty = given.pop("empty", "")
        if not choices:
            self.live.tell(empty, Tone.CAUTION)
            return None
        return await self.app.push_screen_wait(Choose(title, choices, **given))

    async def choose(self, title: str, choices: Sequence[Choice[T]], **given: Any) -> T | None:
        """As `pick`, but one choice is no choice: it is taken at once."""
        if len(choices) == 1:
            return choices[0].value
        return await self.pick(title, choices, **given)

    @property
    def cursor_key(self) -> str:
        """The key of the row under the cursor of the list that has the focus; empty where there is none."""
        from buildlog.screens.widgets.grid import Grid

        return (self.focused.cursor_key or "") if isinstance(self.focused, Grid) else ""

    def cursor_id(self, noun: str) -> int | None:
        """The id, where the row under the cursor has the key `noun:id`."""
        of, _, row_id = self.cursor_key.partition(":")
        return int(row_id) if of == noun and row_id.isdecimal() else None

    def marked_ids(self, noun: str) -> tuple[int, ...]:
        """Of the rows `noun:id` that are marked in the list that has the focus."""
        from buildlog.screens.widgets.grid import Grid

        keys = (key.partition(":") for key in self.focused.marked) if isinstance(self.focused, Grid) else ()
        return tuple(int(row_id) for of, _, row_id in keys if of == noun and row_id.isdecimal())

    async def each_marked(self, noun: str, act: Callable[[int | None], Awaitable[object]]) -> None:
        """Do it to every row `noun:id` that is marked in the list with the focus, else to the one under its cursor;
        None where there is no such row: then it is asked which.
        """
        from buildlog.screens.widgets.grid import Grid

        grid, marked = self.focused, self.marked_ids(noun)
        for row_id in marked or (self.cursor_id(noun),):
            await act(row_id)
        if isinstance(grid, Grid) and marked:
            grid.unmark()
            self.live.tell(f"That was {len(marked)} of them, one after the other; the journal lists each.")

    @property
    def thing_here(self) -> tuple[str, int] | None:
        """Noun and id of what the row under the cursor is about, as its key says; a screen may know better."""
        noun, _, row_id = self.cursor_key.partition(":")
        return (CALLED.get(noun, noun), int(row_id)) if row_id.isdecimal() else None
