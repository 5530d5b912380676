"""The keys of Mirror that edit the tree and what belongs to it."""

from __future__ import annotations

from textual import work

from buildlog.screens.mirror_keys import MirrorKeys


class MirrorEditKeys(MirrorKeys):
    """Each acts on the assembly under the cursor, or on the place of the blocker there."""

    def __init__(self) -> None:
        super().__init__()
        self._wanted = ""

    def want(self, code: str | None) -> None:
        """The cursor goes to the assembly of that code, as soon as it is in the tree."""
        if code is not None:
            self._wanted = code
            self.find_wanted()

    def find_wanted(self) -> None:
        assemblies = self.status.snapshot.assemblies if self.status is not None and self._wanted else ()
        found = next((a.id for a in assemblies if a.code == self._wanted), None)
        if found is not None and self.tree_grid.move_to(f"assembly:{found}"):
            self._wanted = ""

    @work
    async def action_edit_here(self) -> None:
        from buildlog.screens.mirror_edit import edit_here

        await edit_here(self)

    @work
    async def action_move_here(self) -> None:
        from buildlog.screens.mirror_edit import move_here

        await move_here(self)

    @work
    async def action_revise_here(self) -> None:
        from buildlog.screens.mirror_edit import revise_here

        await revise_here(self)

    @work
    async def action_add_with_parts(self) -> None:
        from buildlog.screens.mirror_edit import add_beneath

        await add_beneath(self)
