"""Screen 8: what changed, when; undo and redo."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual import on, work
from textual.widget import Widget

from buildlog.errors import BuildlogError
from buildlog.screens.base import LiveScreen
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.cells import Align
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Column
from buildlog.screens.widgets.tones import Tone

if TYPE_CHECKING:
    from buildlog.facts.journal import JournalGroup
    from buildlog.status.status import Status

LEADS_IN = "Nothing was recorded yet: whatever you do is told here, and can be taken back."
AT_ONCE = 300
GROUPS = (
    Column("recorded", "at", width=5, align=Align.RIGHT),
    Column("what", "what was recorded", least=24),
    Column("at", "as of", width=12, align=Align.RIGHT, priority=1, snug=True),
    Column("by", "made", width=9, priority=2),
    Column("state", "now", width=12),
)
ROWS = (Column("column", "rows before and after", width=26, tree=True), Column("change", least=20))


class Journal(LiveScreen):
    """Every change as it was recorded, newest first; below it, when asked, the rows before and after."""

    SCOPE, NAME = Scope.JOURNAL, "journal"
    CSS_PATH = "journal.tcss"
    BINDINGS = bindings(Scope.JOURNAL)
    BY_BUILD = False
    QUESTION = "What changed, when, and can it be taken back?"
    WORDS = (
        ("at", "When it was recorded, under its day."),
        ("as of", "When it happened, where that was earlier."),
        ("here", "Made on these screens since they were opened; elsewhere: by another program, or earlier."),
        ("stands", "Its rows are in force."),
        ("taken back", "It was undone; the last one can be put back until something new is recorded."),
        ("rows", "What the ledger held before, and holds since."),
    )

    def __init__(self) -> None:
        super().__init__()
        self._groups: tuple[JournalGroup, ...] = ()
        self._asked = AT_ONCE

    def body(self) -> Iterable[Widget]:
        yield Grid(GROUPS, empty=LEADS_IN, id="groups")
        rows = Grid(ROWS, empty="It wrote no row.", id="rows")
        rows.display = False
        yield rows

    def on_mount(self) -> None:
        self.query_one("#groups", Grid).focus()

    def show(self, status: Status) -> None:
        from buildlog.screens.journal_rows import group_rows

        ledger = self.live.ledger
        try:
            found = ledger.journal(self._asked + 1)
        except BuildlogError as error:  # what was read last stays in view
            self.live.tell(str(error), Tone.BAD)
            return
        self._groups, more = found[: self._asked], len(found) > self._asked
        zone = status.snapshot.settings.home_zone
        self.query_one("#groups", Grid).set_rows(group_rows(self._groups, status.now, zone, ledger.program, more))
        self.headline(self._figures(more))
        self._show_rows()

    @property
    def group_here(self) -> JournalGroup | None:
        """The group under the cursor."""
        of, _, row_id = (self.query_one("#groups", Grid).cursor_key or "").partition(":")
        return next((g for g in self._groups if of == "group" and g.id == int(row_id)), None)

    @on(Grid.Highlighted, "#groups")
    def _other_group(self) -> None:
        self._show_rows()

    @on(Grid.Chosen, "#groups")
    def _go_down(self) -> None:
        """Enter: to the rows; on the last line, to older groups."""
        if self.group_here is None and self.status is not None:
            self._asked += AT_ONCE
            self.show(self.status)
            return
        self._open_rows(True)
        self.query_one("#rows", Grid).focus()

    @on(Grid.Chosen, "#rows")
    def _go_up(self) -> None:
        self.query_one("#groups", Grid).focus()

    def action_show_rows(self) -> None:
        if not self._groups:
            self.live.tell(LEADS_IN)
            return
        self._open_rows(not self.query_one("#rows", Grid).display)

    @work
    async def action_take_back_this(self) -> None:
        from buildlog.screens.turning import take_back_group

        group = self.group_here
        if group is None:
            self.live.tell("No change stands under the cursor: go up to one." if self._groups else LEADS_IN)
        else:
            meant = group.undoes_id or group.id
            await take_back_group(self.live, meant, group.summary.removeprefix(f"{group.kind}: "))

    def _open_rows(self, seen: bool) -> None:
        if not seen:
            self.query_one("#groups", Grid).focus()
        self.query_one("#rows", Grid).display = seen
        self._show_rows()

    def _show_rows(self) -> None:
        """The rows of the group under the cursor; read only while they are in sight."""
        rows, group = self.query_one("#rows", Grid), self.group_here
        if not rows.display or self.status is None:
            return
        from buildlog.screens.journal_rows import entry_rows

        try:
            entries = self.live.ledger.journal_rows(group.id) if group is not None else []
        except BuildlogError as error:
            self.live.tell(str(error), Tone.BAD)
            return
        rows.set_rows(entry_rows(entries, self.status.snapshot))
        rows.action_first_row()

    def _figures(self, more: bool) -> list[Fact]:
        from buildlog.facts.journal import standing_of

        standing = standing_of(reversed(self._groups))
        facts = [Fact("changes", f"{'the newest ' if more else ''}{len(self._groups)}")]
        facts.append(Fact("made here", str(len(self.live.own))))
        if standing.redoable:
            facts.append(Fact("{redo} puts back", standing.redoable[-1].summary))
        if self.live.own:
            facts.append(Fact("{undo} takes back", self.live.own[-1][1]))
        return facts
