"""The reading side of the app: it keeps the newest Status and looks for what others write.

Nothing here blocks the screen: reading runs in a thread, and SQLModel loads after the first data.
"""

from __future__ import annotations

import asyncio
from collections.abc import Iterable
from contextlib import suppress
from operator import attrgetter
from typing import TYPE_CHECKING

from textual import work
from textual.message import Message

from buildlog.errors import BuildlogError, LedgerError
from buildlog.screens.one_question import OneQuestionApp
from buildlog.screens.own_keys import own_keys, with_keys
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import Moment, minutes_between

if TYPE_CHECKING:
    from buildlog.ledger import Ledger
    from buildlog.status.first_look import FirstLook
    from buildlog.status.status import Status

LOOK_EVERY_SECONDS = 1.0
PAINTED_SECONDS = 0.05
"""Our choice: so long a screen has for painting before more is loaded."""
GROWS_OLD_MINUTES = 1
"""So old may the moment of the Status be before it is computed anew: what is due moves on by itself."""

LOOKED_AT = {
    "today": ("machines", "doable", "outlook", "alerts", "hours.total_minutes"),
    "mirror": ("progress",),
    "prints": ("machines", "hours.sets", "hours.on_top", "hours.total_minutes"),
    "stock": ("alerts", "stock.hours_burn_down"),
    "episode": ("outlook",),
    "boxes": ("doable",),
    "catch_up": ("doable", "machines"),
}
"""What each screen asks of a Status that is computed only when it is asked for."""


class StatusArrived(Message):
    """A new Status; sent to every screen in view."""

    def __init__(self, status: Status) -> None:
        super().__init__()
        self.status = status


class SeenFirst(Message):
    """What is on the printers, before there is a Status; sent to the screen in view."""

    def __init__(self, look: FirstLook) -> None:
        super().__init__()
        self.look = look


class Told(Message):
    """Something to say in the line above the keys; sent to every screen in view."""

    def __init__(self, text: str, tone: Tone) -> None:
        super().__init__()
        self.text, self.tone = text, tone


class FollowingApp(OneQuestionApp):
    """Keeps `status` up to date with the ledger, whoever writes it."""

    def __init__(self, ledger: Ledger) -> None:
        super().__init__()
        self.ledger = ledger
        self.status: Status | None = None
        self._version: int | None = None
        self._trouble = ""
        self._reading = self._again = False

    def on_ready(self) -> None:
        """Once the first frame stands read, then go on looking."""
        from buildlog.facts.collection import keep_for_good

        keep_for_good()  # what was loaded: all of it would be looked through just before the data is painted
        self.call_after_refresh(self.refresh_status)
        self.set_interval(LOOK_EVERY_SECONDS, self._look)

    def on_unmount(self) -> None:
        from buildlog.facts.collection import keep_no_longer

        keep_no_longer()

    def tell(self, text: str, tone: Tone = Tone.PLAIN) -> None:
        for screen in self.screen_stack:
            screen.post_message(Told(with_keys(text, own_keys(self)), tone))

    @work(group="status")
    async def refresh_status(self) -> None:
        """Compute the Status anew; asked for again while it runs, it runs once more."""
        self._again = True
        if self._reading:
            return
        self._reading = True
        try:
            while self._again:
                self._again = False
                await self._read_once()
        finally:
            self._reading = False

    async def _read_once(self) -> None:
        """A new Status; where the ledger cannot be read the one in view stays, and that is said."""
        try:
            if self.status is None:
                await self._look_first()
            status, version = await asyncio.to_thread(_read, self.ledger, self.status, self._looked_at())
        except BuildlogError as error:
            self._in_trouble(str(error))
        else:
            self._trouble = ""
            self._take(status, version)

    async def _look_first(self) -> None:
        """Show what needs few rows, and read on once it is painted: both at once would take each other's time."""
        look, painted = await asyncio.to_thread(_first_look, self.ledger), asyncio.Event()
        if look.printers:
            self.screen.post_message(SeenFirst(look))
            self.screen.call_after_refresh(painted.set)
            with suppress(TimeoutError):  # a screen that was left meanwhile paints no more
                await asyncio.wait_for(painted.wait(), PAINTED_SECONDS)

    def _looked_at(self) -> list[str]:
        names = (getattr(screen, "NAME", "") for screen in self.screen_stack)
        return [answer for name in names for answer in LOOKED_AT.get(name, ())]

    def _in_trouble(self, text: str) -> None:
        """Say it in full when it begins, and in the line above the keys as long as it lasts."""
        if text != self._trouble:
            from buildlog.screens.dialogs.say import Say  # questions come after the first frame

            self._trouble = text
            self.push_screen(Say("The ledger cannot be read", text.splitlines()))
        self.tell(text, Tone.BAD)

    def _take(self, status: Status, version: int) -> None:
        first = self.status is None
        self.status, self._version = status, version
        for screen in self.screen_stack:
            screen.post_message(StatusArrived(status))
        if first:
            self._load_rest()

    @work(group="writer")
    async def _load_rest(self) -> None:
        """Load the other screens, and SQLModel for the first wish, once the data is on screen."""
        from buildlog.facts.collection import keep_for_good
        from buildlog.screens.registry import load_screens

        await asyncio.sleep(PAINTED_SECONDS)
        keep_for_good()  # what was read
        await asyncio.to_thread(load_screens)
        if not self.ledger.why_read_only:
            with suppress(LedgerError):  # the first wish says why it cannot be written
                await asyncio.to_thread(self.ledger.writer)
        keep_for_good()  # and what was loaded since

    def _look(self) -> None:
        """Whether there is something new: another program wrote, time went by, or what was wrong is mended."""
        if self._reading:
            return
        try:
            version = self.ledger.version()
        except LedgerError as error:
            self._in_trouble(str(error))
            return
        if (
            self.status is None
            or self._trouble
            or version != self._version
            or _is_old(self.status, self.ledger.now())
        ):
            self.refresh_status()


def _is_old(status: Status, now: Moment) -> bool:
    """Also where the clock was set back since."""
    return abs(minutes_between(status.now, now)) >= GROWS_OLD_MINUTES


def _first_look(ledger: Ledger) -> FirstLook:
    from buildlog.status.first_look import look_first

    now = ledger.now()  # which rows are read and what they mean are of one moment
    with ledger.understood():
        return look_first(ledger.of_printers(now), now)


def _read(ledger: Ledger, before: Status | None, looked_at: Iterable[str]) -> tuple[Status, int]:
    """A new Status, with the answers that the screen in view will ask it for: here they keep no key waiting.

    When nothing has happened for a while, what was read in parts is read as a whole: the journal does not name what
    another program may have written past it.
    """
    from buildlog.facts.collection import look_at_all, no_collection
    from buildlog.status.status import take_stock

    version = ledger.version()  # before the rows: what is written meanwhile is read again
    with ledger.understood(), no_collection():
        idle = before is not None and _is_old(before, ledger.now())
        status = take_stock(ledger.snapshot(afresh=idle), ledger.now(), before)
        for name in looked_at:
            attrgetter(name)(status)
    if idle:
        look_at_all()
    return status, version
