"""Screen 0: what should have happened since the last entry, each answered with one key."""

from __future__ import annotations

import asyncio
from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from textual import on, work
from textual.widget import Widget
from textual.widgets import Static

from buildlog.errors import BuildlogError
from buildlog.screens.base import LiveScreen
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.facts_line import FactsLine
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Column
from buildlog.screens.widgets.tones import Tone

if TYPE_CHECKING:
    from buildlog.status.due import Answer, Asking, Due
    from buildlog.status.status import Status
    from buildlog.terms import Moment

UP_TO_DATE = """Nothing waits: the ledger is up to date.
With {tell_more} you tell what nobody expected:
a print, a step, a fit, a delivery, a weigh-in, a note."""
COLUMNS = (
    Column("where", width=14, snug=True),
    Column("what", least=20),
    Column("told", width=48, snug=True),
)


class CatchUp(LiveScreen):
    """From the top: prints first, then what rests on them; an answered line goes, the cursor is on the next."""

    SCOPE, NAME = Scope.CATCH_UP, "catch_up"
    CSS_PATH = "catch_up.tcss"
    BINDINGS = bindings(Scope.CATCH_UP)
    QUESTION = "What should have happened since the last entry, and did it?"
    WORDS = (
        ("as planned", "Recorded as it stands there, with the moment that is proposed."),
        ("began, ended", "Reckoned: a quarter of an hour after the print before, by day, with the learned hours."),
        ("done", "Reckoned: as long as it takes, by day, from when it could be done."),
        ("enter", "The whole form, with the proposed moment in words to be changed."),
        ("sitting", "Entries less than three hours apart; what was answered with later comes back in the next one."),
    )

    def __init__(self) -> None:
        super().__init__()
        self._dues: tuple[Due, ...] = ()
        self._since: Moment | None = None
        self._settled: set[str] = set()
        self._in_hand: dict[str, bool] = {}
        """Keys of lines that were answered here, and whether that is on the record by now: such lines are hidden
        until a Status knows better."""
        self._one_by_one = asyncio.Lock()
        self._status_seen: Status | None = None

    def body(self) -> Iterable[Widget]:
        yield FactsLine(id="answers")
        yield Grid(COLUMNS, empty="", id="dues")  # that nothing waits is known when the ledger is read
        yield Static("", markup=False, id="caution")

    def on_mount(self) -> None:
        self.grid.focus()

    @property
    def grid(self) -> Grid:
        return self.query_one("#dues", Grid)

    @property
    def due_here(self) -> Due | None:
        """What the line under the cursor is about."""
        return next((due for due in self._dues if due.key == self.grid.cursor_key), None)

    def show(self, status: Status) -> None:
        from buildlog.screens.catch_up_rows import due_rows, headline
        from buildlog.status.catch_up import LOOKS_BACK, catch_up, last_entry_before

        try:
            since = last_entry_before(self.live.ledger.journal(LOOKS_BACK), status.now)
        except BuildlogError as error:  # what was read last stays in view
            self.live.tell(str(error), Tone.BAD)
            return
        if since != self._since:  # another sitting
            self._since = since
            self._settled.clear()
        if status is not self._status_seen:
            self._status_seen = status
            self._in_hand = {key: told for key, told in self._in_hand.items() if not told}
        dues = catch_up(status, since, frozenset(self._settled))
        self._dues = tuple(due for due in dues if due.key not in self._in_hand)
        self.headline(headline(self._dues, since, status))
        self.grid.empty = UP_TO_DATE
        self.grid.set_rows(self.of_build(due_rows(self._dues)))
        self._tell_answers()

    @on(Grid.Highlighted, "#dues")
    def _tell_answers(self) -> None:
        """What each key means for the line under the cursor, and the caution that belongs to it."""
        from buildlog.screens.acts.named import said_cautions
        from buildlog.screens.catch_up_rows import answers_told
        from buildlog.screens.own_keys import own_keys

        due = self.due_here
        told_of = answers_told(due, own_keys(self.live)) if due is not None else ()
        self.query_one("#answers", FactsLine).show(told_of)
        caution = said_cautions(self.status, [due.caution_key]) if due is not None and self.status is not None else ""
        told = self.query_one("#caution", Static)
        told.update(f"! {caution}" if caution else "")
        told.display = bool(caution)

    @work
    async def action_as_planned(self) -> None:
        from buildlog.status.due import Answer

        await self._answer(Answer.AS_PLANNED)

    @work
    async def action_went_wrong(self) -> None:
        from buildlog.status.due import Answer

        await self._answer(Answer.FAILED)

    @work
    async def action_not_done(self) -> None:
        from buildlog.status.due import Answer

        await self._answer(Answer.NOT_DONE)

    @work
    async def action_ask_later(self) -> None:
        from buildlog.status.due import Answer

        await self._answer(Answer.LATER)

    @work
    @on(Grid.Chosen, "#dues")
    async def _whole(self) -> None:
        """Enter: the full form, with the moment that is proposed."""
        due = self.due_here
        if due is not None:
            await self._ask(due, due.whole, "")

    @work
    async def action_tell_more(self) -> None:
        from buildlog.screens.acts.unexpected import tell_unexpected

        await tell_unexpected(self)

    async def _answer(self, answer: Answer) -> None:
        """All that are marked, in their order, else the one under the cursor."""
        marked = [due for due in self._dues if due.key in self.grid.marked]
        dues = marked or ([self.due_here] if self.due_here is not None else [])
        if not dues:
            self.live.tell("Nothing waits to be answered: {tell_more} tells what nobody expected.", Tone.CAUTION)
        for due in dues:
            await self._answer_one(due, answer)

    async def _answer_one(self, due: Due, answer: Answer) -> None:
        reply = due.reply(answer)
        if reply.asking is None:
            self._settled.add(due.key)
            self.live.tell(f"{due.where}, {due.what}: {reply.words}; nothing was recorded.")
            self._show_again()
        elif reply.asking.asks:
            await self._ask(due, reply.asking, reply.words)
        else:
            await self._record(due, reply.asking)

    async def _record(self, due: Due, asking: Asking) -> None:
        """The line goes at once; what was answered quickly after each other is recorded in that order."""
        self._in_hand[due.key] = False
        self._show_again()
        async with self._one_by_one:
            if await self.wish(asking.filled({}), asking.at) is None:
                del self._in_hand[due.key]
                self._show_again()
                self.grid.move_to(due.key)
            else:
                self._in_hand[due.key] = True

    async def _ask(self, due: Due, asking: Asking, words: str) -> None:
        from buildlog.screens.acts.named import said_cautions
        from buildlog.screens.asking import WHEN

        caution = said_cautions(self.status, [due.caution_key]) if self.status is not None else ""
        title = f"{due.where}, {due.what}" + (f": {words}" if words else "")
        recorded = await self.ask(
            asking.kind,
            title,
            caution=caution,
            values=asking.values,
            only=asking.asks,
            at=asking.at,
            when=replace(WHEN, label=asking.dates),
            when_too=bool(asking.dates),
        )
        if recorded is not None:
            self._in_hand[due.key] = True
            self._show_again()

    def _show_again(self) -> None:
        if self.status is not None:
            self.show(self.status)
