"""Screen 9: everything that can be added, changed and retired, by noun."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual import on
from textual.containers import Horizontal
from textual.widget import Widget

from buildlog.screens.keys import Scope, bindings
from buildlog.screens.thing_keys import ThingKeys
from buildlog.screens.widgets.beside import GridBeside
from buildlog.screens.widgets.cells import Align
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Column

if TYPE_CHECKING:
    from buildlog.status.status import Status

NOUN_COLUMNS = (Column("noun", least=11), Column("count", width=4, align=Align.RIGHT))
COLUMNS = (Column("key", "which", width=22, snug=True), Column("told", "how it stands", least=20))


class Things(ThingKeys):
    """Nouns at the left, beside them the things of the one under the cursor."""

    SCOPE, NAME = Scope.THINGS, "things"
    CSS_PATH = "things.tcss"
    BINDINGS = bindings(Scope.THINGS)
    BY_BUILD = False
    QUESTION = "What is there, and what is to be added, changed or retired?"
    WORDS = (
        ("add", "A form with what the last one of its kind said where that is usually alike."),
        ("copy", "The same form, filled in as the thing under the cursor, with the next free code."),
        ("retire", "Out of use from now on; its past stays, and {bring_back} brings it back."),
        ("space", "Marks several: {edit_thing} and {retire_thing} then act on all of them."),
        ("*", "A field that must be filled in."),
        ("tab →", "In a field: takes the name that is lit below it; pgdn lights another."),
        ("← →", "From the things to the nouns and back; esc goes to the nouns too, tab to the other list."),
    )

    def body(self) -> Iterable[Widget]:
        things = GridBeside(COLUMNS, empty="None yet: {add_thing} adds one.", left="nouns", id="things")
        yield Horizontal(GridBeside(NOUN_COLUMNS, right="things", id="nouns"), things, id="by-noun")

    def on_mount(self) -> None:
        self.nouns.focus()

    def show(self, status: Status) -> None:
        from buildlog.screens.things_rows import noun_rows

        self.nouns.set_rows(noun_rows(status.snapshot))
        self._show_things()

    def reveal(self, noun: str, row_id: int) -> None:
        """The list of a noun, with the cursor on the thing that has the id; on the first one for id 0."""
        from buildlog.proposals.nouns import FORMS, key_of
        from buildlog.proposals.recorded import form_of_row
        from buildlog.status.forms import SnapshotRows

        if noun not in FORMS or self.status is None:
            return
        self.nouns.move_to(f"noun:{noun}")
        self._show_things()
        self.things.focus()
        rows = SnapshotRows(self.status.snapshot)
        found = rows.all(noun.replace(" ", "_"), id=row_id) if row_id else ()
        if found:
            self.things.move_to(f"thing:{noun}:{key_of(form_of_row(rows, noun, found[0]))}")

    @on(Grid.Highlighted, "#nouns")
    def _other_noun(self) -> None:
        self._show_things()

    @on(Grid.Chosen, "#nouns")
    def _go_in(self) -> None:
        """Enter on a noun: to its things; where there is none yet, the form."""
        if self.things.shown_keys:
            self.things.focus()
        else:
            self.action_add_thing()

    @on(Grid.Chosen, "#things")
    def _edit(self) -> None:
        self.action_edit_thing()

    def _show_things(self) -> None:
        if self.status is None:
            return
        from buildlog.screens.things_rows import MEANS, thing_rows

        noun = self.noun_here
        rows = thing_rows(self.status.snapshot, noun)
        self.things.can_focus = bool(rows)  # a cursor that stands on nothing is not seen
        if not rows and self.things.has_focus:
            self.nouns.focus()
        self.things.set_rows(rows)
        self.headline([Fact(noun, MEANS[noun])])
        self.find_wanted()
