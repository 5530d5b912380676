"""Screen 5: what must be tested, what failed, what went stale; a round of measuring."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual import on, work
from textual.widget import Widget

from buildlog.screens.base import LiveScreen
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.cells import Align
from buildlog.screens.widgets.facts_line import FactsLine
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Column

if TYPE_CHECKING:
    from buildlog.status.fits import FitState
    from buildlog.status.status import Status

NONE_YET = "No fit to test yet: {go_things} Things adds a fit test."
NONE_NOW = "No fit asks for anything: {show_all} shows those passed and those to come."
COLUMNS = (
    Column("name", "fit", least=30, share=3),
    Column("place", "where", width=14, snug=True),
    Column("minutes", "takes", width=6, align=Align.RIGHT, priority=1),
    Column("why", "why", least=18, share=3),
)


class FitsScreen(LiveScreen):
    """Fits that ask for something, worst first; after each one recorded the cursor is on the next."""

    SCOPE, NAME = Scope.FITS, "fits"
    BINDINGS = bindings(Scope.FITS)
    QUESTION = "What must be tested, what failed, what went stale?"
    WORDS = (
        ("due", "Its slots hold something, and nobody has tested it since."),
        ("failed", "It was tested and did not fit; nothing has changed there since."),
        ("stale", "It passed, and then something that it touches changed."),
        ("look again", "Another piece of the same revision stands there: a look at one spot is enough."),
        ("not yet", "Its slots do not all hold something."),
        ("what then", "After a failure: use as is, rework, reprint or scrap."),
    )

    def __init__(self) -> None:
        super().__init__()
        self._everything = False

    def body(self) -> Iterable[Widget]:
        yield FactsLine(id="told-here")
        yield Grid(COLUMNS, empty=NONE_YET, id="fits")

    def on_mount(self) -> None:
        self.grid.focus()

    @property
    def grid(self) -> Grid:
        return self.query_one("#fits", Grid)

    @property
    def state_here(self) -> FitState | None:
        """The fit under the cursor."""
        from buildlog.screens.fits_rows import key_of_state

        states = self.status.fits.all if self.status is not None else ()
        return next((state for state in states if key_of_state(state) == self.grid.cursor_key), None)

    @property
    def thing_here(self) -> tuple[str, int] | None:
        state = self.state_here
        return None if state is None else ("fit test", state.test_id)

    def show(self, status: Status) -> None:
        from buildlog.screens.fits_rows import fit_rows, fits_of_build, headline

        states = fits_of_build(status, self.build_id)
        self.headline(headline(status, states))
        self.grid.empty = NONE_NOW if states else NONE_YET
        self.grid.set_rows(fit_rows(status, states, self._everything))
        self._tell_here()

    @on(Grid.Highlighted, "#fits")
    def _tell_here(self) -> None:
        from buildlog.screens.fits_rows import told_of

        state = self.state_here
        if self.status is not None:
            self.query_one("#told-here", FactsLine).show(told_of(self.status, state) if state is not None else ())

    @work
    @on(Grid.Chosen, "#fits")
    async def _lead(self) -> None:
        """Enter: to the position on Mirror."""
        state = self.state_here
        if state is not None:
            await self.live.lead_to("position", state.position_id)

    @work
    async def action_record_fit(self) -> None:
        """Those that are marked one after the other, else the one under the cursor; then to the next."""
        from buildlog.screens.fits_rows import key_of_state

        marked = self.grid.marked
        all_there_are = self.status.fits.all if self.status is not None else ()
        states = {key_of_state(state): state for state in all_there_are}
        for key in marked:
            await self._record(states[key])
        if not marked and self.state_here is None:
            self.live.tell(
                "No fit stands under the cursor: {show_all} shows those passed, Things ({go_things}) adds one."
            )
        elif not marked and self.state_here is not None and await self._record(self.state_here):
            self._go_on()
        self.grid.unmark()

    async def _record(self, state: FitState) -> bool:
        from buildlog.screens.acts.bench import record_state

        if not state.can_test:
            self.live.tell(f"It cannot be tried yet: {state.why}. Enter shows what holds it.")
            return False
        return self.status is not None and await record_state(self, self.status, state) is not None

    def action_show_all(self) -> None:
        self._everything = not self._everything
        if self.status is not None:
            self.show(self.status)

    def _go_on(self) -> None:
        """To the next fit; from the last one back to the first."""
        keys = [key for key in self.grid.shown_keys if key.startswith("fit:")]
        if self.grid.cursor_key in keys:
            self.grid.move_to(keys[(keys.index(self.grid.cursor_key) + 1) % len(keys)])
