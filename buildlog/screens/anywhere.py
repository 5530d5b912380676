"""What works on every screen and asks something: undo, redo, find, another build, one line in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from textual import work

from buildlog.screens.live import LiveApp

if TYPE_CHECKING:
    from buildlog.ledger import Ledger
    from buildlog.screens.app import Buildlog


class AnywhereApp(LiveApp):
    """`draft` is the line in plain words that was left unrecorded, `last_said` when the one before it happened."""

    def __init__(self, ledger: Ledger) -> None:
        super().__init__(ledger)
        self.draft = ""
        self.last_said = ""

    @property
    def _app(self) -> Buildlog:
        return cast("Buildlog", self)

    @work
    async def action_switch_build(self) -> None:
        from buildlog.screens.builds import switch_build

        await switch_build(self._app)

    @work
    async def action_undo(self) -> None:
        from buildlog.screens.turning import take_back

        await take_back(self._app)

    @work
    async def action_redo(self) -> None:
        from buildlog.screens.turning import put_back

        await put_back(self._app)

    @work
    async def action_find(self) -> None:
        from buildlog.screens.finding import find

        await find(self._app)

    @work
    async def action_quick_entry(self) -> None:
        from buildlog.screens.acts.quick import quick_entry

        await quick_entry(self._app)
