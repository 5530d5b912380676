"""What the screens share: title, headline, body, what was said last, and the keys.

    class Prints(LiveScreen):
        SCOPE, NAME = Scope.PRINTS, "prints"
        BINDINGS = bindings(Scope.PRINTS)
        QUESTION = "What is on each printer, what is ready to run, how many hours are left?"
        WORDS = (("ready file", "A prepared file for a class of printers; it lasts and is run again."),)

        def body(self) -> Iterable[Widget]:
            yield Grid(COLUMNS, id="printers")

        def show(self, status: Status) -> None:          # whenever a new Status arrives, and when shown again
            self.headline((Fact("to print", "312 h"),))
            self.query_one("#printers", Grid).set_rows(...)

        @work
        async def action_cancel_print(self) -> None:     # a key of the scope
            await self.wish(CancelPrint(job=4))           # records, says so or why not, refreshes

Attributes down, messages up: widgets never write; a screen asks with the functions of asking.py.
The first frame waits for all that is loaded with this module: lists and questions are loaded where they are used.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.app import ComposeResult
from textual.containers import Container
from textual.events import DescendantFocus, ScreenResume
from textual.widget import Widget
from textual.widgets import Static

from buildlog.screens.keys import Scope
from buildlog.screens.live import StatusArrived, Told
from buildlog.screens.own_keys import own_keys, with_keys
from buildlog.screens.themes import styled_from_the_start
from buildlog.screens.widgets.facts_line import Fact, FactsLine
from buildlog.screens.widgets.key_line import KeyClicked, KeyLine
from buildlog.screens.widgets.said_line import SaidLine
from buildlog.screens.widgets.title_line import TitleLine
from buildlog.screens.widgets.tones import Tone
from buildlog.screens.window_size import NewestSize
from buildlog.screens.wishing import WishingScreen

if TYPE_CHECKING:
    from buildlog.ledger import Ledger
    from buildlog.screens.widgets.rows import GridRow
    from buildlog.status.status import Status

WIDE_FROM = 110
LEAST_WIDTH, LEAST_HEIGHT = 60, 16
TOO_SMALL = f"This window is too small to read: make it at least {LEAST_WIDTH} × {LEAST_HEIGHT}."


class LiveScreen(NewestSize, WishingScreen):
    """A screen that shows a Status. The class `-wide` is set from 110 columns on.

    `BY_BUILD` is whether it leaves out other builds while one is shown; what they share stays whole.
    """

    SCOPE: ClassVar[Scope] = Scope.TODAY
    NAME: ClassVar[str] = ""
    QUESTION: ClassVar[str] = ""
    WORDS: ClassVar[tuple[tuple[str, str], ...]] = ()
    BY_BUILD: ClassVar[bool] = True
    HORIZONTAL_BREAKPOINTS = [(0, "-cramped"), (LEAST_WIDTH, "-usual"), (WIDE_FROM, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-low"), (LEAST_HEIGHT, "-high")]
    laid = True
    """Whether there is something to show a Status in; see `lay`."""

    def __init__(self) -> None:
        super().__init__()
        styled_from_the_start(self)
        self._showing: tuple[Status, int | None] | None = None
        self._standing: tuple[str, Tone] = "", Tone.FAINT
        self._was_away = False

    def compose(self) -> ComposeResult:
        yield TitleLine(self.NAME)
        yield FactsLine(id="headline")
        yield Container(*self.body(), id="body")
        yield SaidLine(id="said")
        yield KeyLine(self.SCOPE)
        yield Static(TOO_SMALL, id="too-small", markup=False)

    def body(self) -> Iterable[Widget]:
        """The widgets between headline and key line."""
        return ()

    async def lay(self) -> None:
        """Called before a Status is shown: the screen that is shown first mounts its body only then."""

    def show(self, status: Status) -> None:
        """Bring a Status on screen, and what follows the cursor of a list too; called again for each new one."""

    def reveal(self, noun: str, row_id: int) -> None:
        """Put the cursor on the row `noun:id` in whichever grid has it."""
        from buildlog.screens.widgets.grid import Grid

        for grid in self.query(Grid):
            if grid.move_to(f"{noun}:{row_id}"):
                grid.focus()
                return

    @property
    def build_id(self) -> int | None:
        """The one build that is shown on every screen, None for all."""
        return self.live.build_id

    def of_build(self, rows: Sequence[GridRow]) -> list[GridRow]:
        """The rows of the build that is shown, and those that all builds share."""
        from buildlog.screens.builds import only_of_build  # not before the first frame

        return list(rows) if self.status is None else only_of_build(self.status, self.build_id, rows)

    def headline(self, facts: Sequence[Fact]) -> None:
        """The figures of the screen; that nothing can be written, or that one build is shown, comes before them."""
        before = [Fact("ledger", "read only", Tone.CAUTION)] if self.live.ledger.why_read_only else []
        builds = self.status.snapshot.builds if self.status else ()
        build = next((b for b in builds if b.id == self.build_id and b.retired_at is None), None)
        before += [Fact("only", build.code, Tone.ACCENT)] if build is not None and self.BY_BUILD else []
        own = own_keys(self.app)
        told = [Fact(with_keys(fact.label, own), with_keys(fact.value, own), fact.tone) for fact in facts]
        self.query_one("#headline", FactsLine).show([*before, *told])

    async def on_status_arrived(self, message: StatusArrived) -> None:
        await self.lay()
        self._take(message.status)

    def on_screen_suspend(self) -> None:
        self._was_away = True

    async def on_screen_resume(self, event: ScreenResume) -> None:
        event.refresh_styles &= self._was_away  # those that it was mounted with hold
        if self.status is not None:
            await self.lay()
            self.take_again()

    def take_again(self) -> None:
        """Show what is known where this is not in view yet: the Status, or another build."""
        if self.status is not None:
            self._take(self.status)

    @work
    async def on_key_clicked(self, message: KeyClicked) -> None:
        from buildlog.screens.pressing import act

        await act(self.live, message.key)

    @work
    async def action_add_note(self) -> None:
        from buildlog.screens.acts.notes import add_note

        await add_note(self)

    def on_told(self, message: Told) -> None:
        self.query_one(SaidLine).say(message.text, message.tone)

    def on_grid_highlighted(self) -> None:
        self._tell_row()

    def on_descendant_focus(self, event: DescendantFocus) -> None:
        from buildlog.screens.widgets.grid import Grid

        if isinstance(event.widget, Grid):
            event.widget.follower = self._tell_row
        self._tell_row()

    def _tell_row(self) -> None:
        """What was noted of the thing under the cursor, its row in full where it is cut, else what is to be known
        of the ledger."""
        from buildlog.screens.widgets.grid import Grid

        if self._showing is not None:
            row = self.focused.cut_words() if isinstance(self.focused, Grid) else ""
            note = noted_here(self)
            told = row if note in row else " · ".join(filter(None, (note, row)))  # rows of Things tell notes too
            self.query_one(SaidLine).stand(*((told, Tone.FAINT) if told else self._standing))

    def _take(self, status: Status) -> None:
        if not self.laid:
            return
        if self._showing is None or self._showing[0] is not status or self._showing[1] != self.build_id:
            from buildlog.screens.widgets.grid import Grid
            from buildlog.wording import day_and_clock

            self._showing = status, self.build_id
            self._standing = standing(self.live.ledger)  # not with each row: it looks at what is mounted
            self.query_one(TitleLine).show(day_and_clock(status.now, status.snapshot.settings.home_zone))
            with self.prevent(Grid.Highlighted):  # what follows the cursor is shown by `show` itself
                self.show(status)
            self._tell_row()


def noted_here(screen: LiveScreen) -> str:
    """The newest note on the thing under the cursor, and how many there are."""
    if screen.status is None or not screen.status.snapshot.notes or (here := screen.thing_here) is None:
        return ""
    from buildlog.status.noted import told_on

    return told_on(screen.status.snapshot, *here)


def standing(ledger: Ledger) -> tuple[str, Tone]:
    """What is to be known of a ledger: that it cannot be written, that its folder is a risk, else its name."""
    if ledger.why_read_only:
        return f"Read only: {ledger.path.name} cannot be written ({ledger.why_read_only}).", Tone.CAUTION
    risk = ledger.risk
    return (risk, Tone.CAUTION) if risk else (f"{ledger.path}", Tone.FAINT)
