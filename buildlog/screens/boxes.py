"""Screen Boxes: where boxes stand and what lies in them; what is away or broken; what a helper can do."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual import on
from textual.containers import Horizontal
from textual.widget import Widget

from buildlog.screens.boxes_keys import BoxKeys
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.beside import GridBeside
from buildlog.screens.widgets.cells import Align
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Column

if TYPE_CHECKING:
    from buildlog.status.status import Status

NO_BOX = "No box yet: {go_things} Things adds one."
PLACE_COLUMNS = (Column("place", least=12), Column("count", width=4, align=Align.RIGHT))
COLUMNS = (
    Column("amount", "how many", width=9, align=Align.RIGHT),
    Column("what", "what", least=16, share=2),
    Column("told", "which", least=16, share=5),
)


class BoxesScreen(BoxKeys):
    """Boxes and lists at the left, beside them what is in the one under the cursor."""

    SCOPE, NAME = Scope.BOXES, "boxes"
    BINDINGS = bindings(Scope.BOXES)
    QUESTION = "What lies where, what is away or broken, and what can a helper do?"
    WORDS = (
        ("by default", "Nobody has put it anywhere: it is looked for in the box of its assembly."),
        ("count", "What lies there is laid against the book, all of the box as one change."),
        ("space", "Marks several lines at the right: a key then acts on all of them, as one change."),
        ("move", "At the left it moves the box with all in it: it is asked where the box stands."),
        ("empty", "All that lies in the box goes into another one: pieces, spools, bought items."),
        ("page", "The label list of a box, the repair kit or the helper's list, as a Markdown file."),
        ("for a helper", "Steps that can be done now and that a helper can do, or that need two."),
        ("← →", "From what lies there to the boxes and back; esc goes to the boxes too, tab to the other list."),
    )

    def body(self) -> Iterable[Widget]:
        lying = GridBeside(COLUMNS, empty="Nothing.", left="places", id="lying")
        yield Horizontal(GridBeside(PLACE_COLUMNS, empty=NO_BOX, right="lying", id="places"), lying, id="by-box")

    def on_mount(self) -> None:
        self.places.focus()

    def show(self, status: Status) -> None:
        from buildlog.screens.boxes_rows import place_rows
        from buildlog.status.boxes import lay_boxes
        from buildlog.status.more_hands import helper_steps

        self.in_boxes, self.helping = lay_boxes(status), helper_steps(status)
        self.places.set_rows(place_rows(status, self.in_boxes, self.helping))
        self._show_lying()

    def reveal(self, noun: str, row_id: int) -> None:
        if self.places.move_to(f"{noun}:{row_id}"):
            self._show_lying()

    @on(Grid.Highlighted, "#places")
    def _other_place(self) -> None:
        self._show_lying()

    @on(Grid.Chosen, "#places")
    def _go_in(self) -> None:
        if self.lying.shown_keys:
            self.lying.focus()

    def _show_lying(self) -> None:
        from buildlog.screens.boxes_rows import empty_words, headline, lying_rows

        if self.status is None or self.in_boxes is None:
            return
        self.headline(headline(self.status, self.in_boxes, self.place_here))
        self.lying.empty = empty_words(self.place_here)
        self.lying.set_rows(lying_rows(self.status, self.in_boxes, self.helping, self.place_here))
