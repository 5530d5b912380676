"""What the keys of Episode do with the line under the cursor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import work

from buildlog.screens.base import LiveScreen
from buildlog.screens.widgets.grid import Grid

if TYPE_CHECKING:
    from buildlog.screens.episode_rows import Shown

NO_BUILD = "There is no build yet: {go_things} Things adds one."


class EpisodeKeys(LiveScreen):
    """Each key acts on the line under the cursor where it fits, else asks which one."""

    chosen: tuple[int, int] | None = None
    """Build and episode that were asked for; None shows the running one."""

    @property
    def grid(self) -> Grid:
        return self.query_one("#episode", Grid)

    @property
    def shown_here(self) -> Shown | None:
        """What is in view; None, and said so, where there is no build."""
        raise NotImplementedError

    @work
    async def action_add_goal(self) -> None:
        from buildlog.screens.acts.episodes import add_goal

        if (shown := self.shown_here) is not None:
            await add_goal(self, shown)

    @work
    async def action_tick_goal(self) -> None:
        from buildlog.screens.acts.episodes import tick_goal

        if (shown := self.shown_here) is not None:
            await self.each_marked("goal", lambda goal_id: tick_goal(self, shown, goal_id))

    @work
    async def action_plan_shot(self) -> None:
        from buildlog.screens.acts.shots import plan_shot

        if (shown := self.shown_here) is not None:
            open_one = shown.episode if shown.episode is not None and shown.episode.closed_at is None else None
            await plan_shot(self, shown.build.code, open_one)

    @work
    async def action_film_shot(self) -> None:
        from buildlog.screens.acts.shots import film_shot, film_shots

        marked = self.marked_ids("shot")
        if not marked:
            await film_shot(self, self.cursor_id("shot"))
        elif await film_shots(self, marked):
            self.grid.unmark()

    @work
    async def action_footage_safe(self) -> None:
        from buildlog.screens.acts.shots import footage_safe

        await self.each_marked("shot", lambda shot_id: footage_safe(self, shot_id))

    @work
    async def action_footage_lost(self) -> None:
        from buildlog.screens.acts.shots import footage_lost

        await self.each_marked("shot", lambda shot_id: footage_lost(self, shot_id))

    @work
    async def action_overrule_shot(self) -> None:
        from buildlog.screens.acts.shots import overrule_shot

        await self.each_marked("shot", lambda shot_id: overrule_shot(self, shot_id))

    @work
    async def action_viewer_asks(self) -> None:
        from buildlog.screens.acts.viewers import viewer_asks

        if (shown := self.shown_here) is not None:
            await viewer_asks(self, shown.build.code)

    @work
    async def action_make_promise(self) -> None:
        from buildlog.screens.acts.viewers import make_promise

        if (shown := self.shown_here) is not None:
            await make_promise(self, shown.build.code)

    @work
    async def action_close_episode(self) -> None:
        from buildlog.screens.acts.episodes import close_episode

        if (shown := self.shown_here) is not None:
            await close_episode(self, shown)

    @work
    async def action_write_week(self) -> None:
        from buildlog.screens.acts.episodes import write_week

        if (shown := self.shown_here) is not None:
            await write_week(self, shown)

    @work
    async def action_other_episode(self) -> None:
        from buildlog.screens.acts.episodes import choose_episode

        shown = self.shown_here
        chosen = await choose_episode(self, shown) if shown is not None else None
        if chosen is not None:
            self.chosen = chosen
            if self.status is not None:
                self.show(self.status)

    @work
    async def act_on(self, key: str) -> None:
        """Enter: tick the goal, say what became of the shot, answer the viewer, keep the promise."""
        from buildlog.screens.acts.shots import tell_of_shot
        from buildlog.screens.acts.viewers import answer_viewer, keep_promise

        noun, _, rest = key.partition(":")
        if noun == "goal":
            self.action_tick_goal()
        elif noun == "shot":
            await tell_of_shot(self, int(rest))
        elif noun == "viewer question":
            await answer_viewer(self, int(rest))
        elif noun == "promise":
            await keep_promise(self, int(rest))
