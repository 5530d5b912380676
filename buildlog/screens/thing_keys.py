"""What stands under the cursors of Things, and what the keys do with it."""

from __future__ import annotations

from textual import work

from buildlog.screens.base import LiveScreen
from buildlog.screens.widgets.grid import Grid


class ThingKeys(LiveScreen):
    """Each key acts on the thing under the cursor, or on the noun."""

    def __init__(self) -> None:
        super().__init__()
        self._wanted = ""

    @property
    def nouns(self) -> Grid:
        return self.query_one("#nouns", Grid)

    @property
    def things(self) -> Grid:
        return self.query_one("#things", Grid)

    @property
    def noun_here(self) -> str:
        return (self.nouns.cursor_key or "noun:build").removeprefix("noun:")

    @property
    def key_here(self) -> str | None:
        """What the thing under the cursor is called; None where there is none."""
        shown = self.things.cursor_key
        return None if shown is None else shown.removeprefix(f"thing:{self.noun_here}:")

    @property
    def keys_here(self) -> tuple[str, ...]:
        """What the marked things are called, else the one under the cursor; none where there is none."""
        marked = tuple(key.removeprefix(f"thing:{self.noun_here}:") for key in self.things.marked)
        return marked or (() if self.key_here is None else (self.key_here,))

    @property
    def thing_here(self) -> tuple[str, int] | None:
        from buildlog.status.notes import id_of

        if self.status is None or (self.key_here is None and self.noun_here != "settings"):
            return None
        found = id_of(self.status.snapshot, self.noun_here, self.key_here or "")
        return None if found is None else (self.noun_here, found)

    @work
    async def action_add_thing(self) -> None:
        from buildlog.screens.acts.things import NO_SUCH_FORM, add_thing

        if self.noun_here == "settings":
            self.live.tell(NO_SUCH_FORM)
        else:
            self._want(await add_thing(self, self.noun_here))

    @work
    async def action_add_with_parts(self) -> None:
        from buildlog.screens.acts.assemblies import add_with_parts

        key = await add_with_parts(self)
        if key is not None:
            self.nouns.move_to("noun:assembly")
            self._want(key)

    @work
    async def action_edit_thing(self) -> None:
        from buildlog.screens.acts.things import edit_thing
        from buildlog.screens.acts.things_several import edit_several

        keys = self.keys_here
        if not keys:
            self.live.tell(f"There is no {self.noun_here} yet: {{add_thing}} adds one.")
        elif len(keys) == 1:
            self._want(await edit_thing(self, self.noun_here, keys[0]))
        elif await edit_several(self, self.noun_here, keys):
            self.things.unmark()

    @work
    async def action_copy_thing(self) -> None:
        from buildlog.screens.acts.things import copy_thing

        if (key := self._key_of_several()) is not None:
            self._want(await copy_thing(self, self.noun_here, key))

    @work
    async def action_retire_thing(self) -> None:
        from buildlog.screens.acts.things import retire_thing
        from buildlog.screens.acts.things_several import retire_several

        if len(self.keys_here) > 1:
            if await retire_several(self, self.noun_here, self.keys_here):
                self.things.unmark()
        elif self._key_of_several() is not None:
            await retire_thing(self, self.noun_here, self.keys_here[0])

    @work
    async def action_bring_back(self) -> None:
        from buildlog.screens.acts.things import NO_SUCH_FORM, bring_back

        if self.noun_here == "settings":
            self.live.tell(NO_SUCH_FORM)
        else:
            self._want(await bring_back(self, self.noun_here))

    def _key_of_several(self) -> str | None:
        """The key of the thing under the cursor, where its noun can have several; else it is said why."""
        from buildlog.screens.acts.things import NO_SUCH_FORM

        if self.noun_here == "settings":
            self.live.tell(NO_SUCH_FORM)
            return None
        if self.key_here is None:
            self.live.tell(f"There is no {self.noun_here} yet: {{add_thing}} adds one.")
        return self.key_here

    def _want(self, key: str | None) -> None:
        """The cursor goes to what was just recorded, as soon as it is in the list."""
        if key is not None:
            self._wanted = f"thing:{self.noun_here}:{key}"
            self.things.focus()
            self.find_wanted()

    def find_wanted(self) -> None:
        """Put the cursor on it, if it is there by now."""
        if self._wanted and self.things.move_to(self._wanted):
            self._wanted = ""
