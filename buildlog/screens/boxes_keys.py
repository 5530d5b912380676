"""What stands under the cursors of Boxes, and what the keys do with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import work

from buildlog.screens.base import LiveScreen
from buildlog.screens.widgets.grid import Grid

if TYPE_CHECKING:
    from buildlog.facts.pieces import Box
    from buildlog.status.boxes import Boxes
    from buildlog.status.more_hands import HelperStep

NO_BOX = "No box stands under the cursor of the left list: tab goes there, Things ({go_things}) adds one."
NO_PIECE = "No piece stands under the cursor of the right list: tab goes there."


class BoxKeys(LiveScreen):
    """Each key acts on the box under the left cursor, or on the piece under the right one."""

    def __init__(self) -> None:
        super().__init__()
        self.in_boxes: Boxes | None = None
        self.helping: tuple[HelperStep, ...] = ()

    @property
    def places(self) -> Grid:
        return self.query_one("#places", Grid)

    @property
    def lying(self) -> Grid:
        return self.query_one("#lying", Grid)

    @property
    def place_here(self) -> str:
        """``box:ID``, ``nowhere:0`` or ``list:NAME``."""
        return self.places.cursor_key or "nowhere:0"

    @property
    def box_here(self) -> Box | None:
        """The box under the left cursor; where there is none it is said."""
        noun, _, row_id = self.place_here.partition(":")
        boxes = self.status.snapshot.boxes if self.status is not None and noun == "box" else ()
        found = next((box for box in boxes if box.id == int(row_id)), None)
        if found is None:
            self.live.tell(NO_BOX)
        return found

    @property
    def rows_here(self) -> tuple[tuple[str, int], ...]:
        """Noun and id of what is marked in the right list, else of the row under its cursor; none is said."""
        keys = self.lying.marked or ((self.lying.cursor_key,) if self.lying.cursor_key else ())
        parts = (key.partition(":") for key in keys)
        found = tuple((noun, int(row_id)) for noun, _, row_id in parts if noun in ("lot", "spool", "bought item"))
        if not found:
            self.live.tell(NO_PIECE)
        return found

    @property
    def thing_here(self) -> tuple[str, int] | None:
        """Of the helper's list the step, of the spares wanted the part."""
        noun, _, name = self.cursor_key.partition(":")
        if noun == "helper":
            return next((("step", found.step.id) for found in self.helping if found.name == name), None)
        if noun == "spare":
            return "part", int(name.rstrip("LR-"))
        return super().thing_here

    @work
    async def action_count_box(self) -> None:
        from buildlog.screens.acts.boxes import count_box

        if (box := self.box_here) is not None and self.in_boxes is not None:
            await count_box(self, box, self.in_boxes.of[box.id])

    @work
    async def action_empty_box(self) -> None:
        from buildlog.screens.acts.boxes import empty_box

        if (box := self.box_here) is not None:
            await empty_box(self, box)

    @work
    async def action_place_box(self) -> None:
        from buildlog.screens.acts.boxes import place_box

        if (box := self.box_here) is not None:
            await place_box(self, box)

    @work
    async def action_piece(self, what: str) -> None:
        """``move``, ``missing``, ``found``, ``lend``, ``back``, ``damage``, ``repair``, ``scrap``."""
        from buildlog.screens.acts.lying import act_on

        if what == "move" and self.places.has_focus and self.place_here.startswith("box:"):
            self.action_place_box()
        elif (rows := self.rows_here) and await act_on(self, rows, what):
            self.lying.unmark()

    @work
    async def action_tick_helped(self) -> None:
        from buildlog.screens.acts.boxes import tick_helped

        here = self.lying.marked or ((self.lying.cursor_key,) if self.lying.cursor_key else ())
        names = [key.removeprefix("helper:") for key in here if key.startswith("helper:")]
        if names:
            await tick_helped(self, [found for found in self.helping if found.name in names])
        else:
            self.live.tell("Steps are ticked in the list «for a helper»: space marks several.")

    @work
    async def action_write_page(self) -> None:
        from buildlog.screens.acts.boxes import write_page

        await write_page(self, self.place_here)
