"""Screen 7: goals, shots, what was done, what goes on, and the week's text as it stands."""

from __future__ import annotations

import asyncio
from collections.abc import Iterable
from typing import TYPE_CHECKING

from rich.text import Text
from textual import on, work
from textual.containers import Horizontal, VerticalScroll
from textual.widget import Widget
from textual.widgets import Static

from buildlog.errors import BuildlogError
from buildlog.screens.episode_keys import NO_BUILD, EpisodeKeys
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.cells import Align
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.panes import PaneGrid
from buildlog.screens.widgets.rows import Column

if TYPE_CHECKING:
    from buildlog.screens.episode_rows import Shown
    from buildlog.status.status import Status

LEADS_IN = """No episode yet. An episode is a stretch of work, usually a week,
that ends with a filming day.
{other_episode} plans the first one; then {add_goal} adds goals and {plan_shot} adds shots."""

COLUMNS = (
    Column("thing", width=12, snug=True),
    Column("what", least=20),
    Column("when", width=15, align=Align.RIGHT, priority=1, snug=True),
)


class EpisodeScreen(EpisodeKeys):
    """The running episode, or one that was asked for; the text stands beside it, or in its place with p."""

    SCOPE, NAME = Scope.EPISODE, "episode"
    CSS_PATH = "episode.tcss"
    BINDINGS = bindings(Scope.EPISODE)
    QUESTION = "What is to be reached and filmed, what was done, and what does the week's text say?"
    WORDS = (
        ("filmed", "The camera ran; the footage is still to be copied and looked at."),
        ("footage safe", "Copied and looked at: a step that cannot be undone may go on."),
        ("gone on without", "A person overruled the shot; the step is free."),
        ("carried over", "Not filmed when its episode was closed: it falls to the next one."),
        ("close", "Keeps how things stand as text; open goals and shots go on to the next episode."),
        ("viewers asked", "It holds nothing; enter answers."),
        ("promised", "To somebody who supplied or lent something; enter keeps it."),
        ("the text", "The same that `buildlog week` writes, in Markdown."),
    )

    def body(self) -> Iterable[Widget]:
        text = VerticalScroll(Static(id="words", markup=False), id="text")
        yield Horizontal(PaneGrid(COLUMNS, empty="", id="episode"), text, id="beside")

    def on_mount(self) -> None:
        self.grid.focus()

    @property
    def shown_here(self) -> Shown | None:
        shown = self._shown(self.status) if self.status is not None else None
        if shown is None:
            self.live.tell(NO_BUILD)
        return shown

    @property
    def thing_here(self) -> tuple[str, int] | None:
        """The goal, shot, question, promise or day under the cursor, else the episode."""
        shown = self._shown(self.status) if self.status is not None else None
        episode = shown.episode if shown is not None else None
        return super().thing_here or (None if episode is None else ("episode", episode.id))

    def show(self, status: Status) -> None:
        from buildlog.screens.episode_rows import episode_rows, headline

        shown = self._shown(status)
        self.grid.empty = LEADS_IN if shown is not None else NO_BUILD
        self.grid.set_rows(episode_rows(status, shown) if shown is not None else ())
        self.headline(headline(status, shown) if shown is not None else ())
        self.call_after_refresh(self._show_text)  # making it would take the lists' time while they are painted

    def reveal(self, noun: str, row_id: int) -> None:
        """The episode that it belongs to, with the cursor on it."""
        self.remove_class("-reading")
        episode_id = self._episode_of(noun, row_id)
        if episode_id is not None and self.status is not None:
            build_id = next(e.build_id for e in self.status.snapshot.episodes if e.id == episode_id)
            self.chosen = build_id, episode_id
            self.show(self.status)
        super().reveal(noun, row_id)

    @on(Grid.Chosen, "#episode")
    def _open(self, message: Grid.Chosen) -> None:
        self.act_on(message.key)

    def action_show_text(self) -> None:
        """The text in place of the list, or its scrolling beside it; and back."""
        text = self.query_one("#text")
        reading = text.has_focus
        self.set_class(not reading, "-reading")
        self._show_text()
        (self.grid if reading else text).focus()

    def on_resize(self) -> None:
        self._show_text()

    @work(exclusive=True, group="text")
    async def _show_text(self) -> None:
        """Worked out beside the keys, and only while it is in sight."""
        from buildlog.report.week import week_text

        status, text = self.status, self.query_one("#text")
        shown = self._shown(status) if status is not None else None
        if status is None or shown is None or not text.display:
            return
        of = str(shown.episode.number) if shown.episode is not None else None
        try:
            told = await asyncio.to_thread(week_text, status, shown.build.code, of)
        except BuildlogError as error:
            told = str(error)
        self.query_one("#words", Static).update(Text(told))

    def _shown(self, status: Status) -> Shown | None:
        """What was asked for as long as it is there, else the running episode of the build in view."""
        from buildlog.report.week import build_named
        from buildlog.screens.builds import build_in_view
        from buildlog.screens.episode_rows import Shown, running

        snapshot = status.snapshot
        wanted = self.chosen or (self.build_id or 0, 0)
        build = next((b for b in snapshot.builds if b.id == wanted[0] and b.retired_at is None), None)
        if build is None or self.build_id not in (None, build.id):
            in_view = build_in_view(snapshot, self.build_id)
            try:
                build = in_view or build_named(snapshot, None)
            except BuildlogError:  # no open build: the screen says what to do
                return None
        live = (e for e in snapshot.episodes if e.build_id == build.id and e.retired_at is None)
        return Shown(build, next((e for e in live if e.id == wanted[1]), None) or running(status, build))

    def _episode_of(self, noun: str, row_id: int) -> int | None:
        """The episode where a thing is shown; None: the running one."""
        snapshot = self.status.snapshot if self.status is not None else None
        if snapshot is None or noun == "episode":
            return row_id if noun == "episode" else None
        if noun == "goal":
            return next((g.episode_id for g in snapshot.goals if g.id == row_id), None)
        return None
