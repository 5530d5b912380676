"""Screen 2: how far each subassembly is on both sides, and what holds it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual import on
from textual.containers import Horizontal
from textual.widget import Widget

from buildlog.screens.keys import Scope, bindings
from buildlog.screens.mirror_edit_keys import MirrorEditKeys
from buildlog.screens.mirror_side import SidePane
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.mirror_cell import MirrorHeading
from buildlog.screens.widgets.rows import Column
from buildlog.terms import Side

if TYPE_CHECKING:
    from buildlog.status.status import Status

LEADS_IN = """No assembly yet.
{add_with_parts} adds one with its parts, by one form: first the root of the build, then what hangs beneath it.
Or all at once from a build sheet, in the shell: buildlog read FILE"""
TALL_FROM = 32


class Mirror(MirrorEditKeys):
    """The tree with both sides; below it what holds the row under the cursor, side by side where there are two."""

    SCOPE, NAME = Scope.MIRROR, "mirror"
    CSS_PATH = "mirror.tcss"
    VERTICAL_BREAKPOINTS = [*MirrorEditKeys.VERTICAL_BREAKPOINTS, (TALL_FROM, "-tall")]
    BINDINGS = bindings(Scope.MIRROR)
    QUESTION = "How far is each subassembly on both sides, and what holds it?"
    WORDS = (
        ("printed", "⣤ print hours of the slots that are filled, or that a piece lies ready for."),
        ("worked", "⠒ bench minutes of the steps that are done."),
        ("passed", "⠉ fits that are passed and still hold. Stand-ins fill none of the three."),
        ("12/40", "Slots filled, of all beneath."),
        ("✓ ‖ ~", "Ready; held on purpose until the lead side is proven; stand-ins, with their number."),
        ("« »", "The side that goes first."),
        ("≠", "The sides are out of step: different parts, revisions or scales."),
        ("A › B ⇢ C", "Where it is held: B beneath A, which waits for C. Nearest first."),
        ("revise", "A new revision: it asks what old ones are good for, left and right, and what changes with it."),
        ("supersede", "Another part takes its place in the same usages."),
        ("ready", "Neither it nor anything beneath it is held by anything."),
    )

    def body(self) -> Iterable[Widget]:
        yield Grid((Column("mirror", heading=MirrorHeading()),), empty=LEADS_IN, id="tree")
        yield Horizontal(SidePane(id="left-side"), SidePane(id="right-side"), id="holding")

    def on_mount(self) -> None:
        self.tree_grid.focus()

    def show(self, status: Status) -> None:
        from buildlog.screens.mirror_rows import headline, tree_rows

        shown = self.builds_shown(status)
        self.headline(headline(status, shown))
        self.tree_grid.set_rows(tree_rows(status, shown))
        self.find_wanted()
        self._show_holding()

    def reveal(self, noun: str, row_id: int) -> None:
        """The row of the assembly that the thing belongs to, in whichever build it is."""
        from buildlog.screens.mirror_find import assembly_of

        found = assembly_of(self.status.snapshot, noun, row_id) if self.status is not None else None
        if found is None or self.status is None:
            return
        build_id = self.status.snapshot.assembly[found].build_id
        if build_id not in self.builds_shown(self.status):
            self.live.show_build(build_id)
        self.tree_grid.move_to(f"assembly:{found}")
        self.tree_grid.focus()

    @on(Grid.Highlighted, "#tree")
    def _tell_what_holds(self) -> None:
        self._show_holding()

    @on(Grid.Chosen, "#tree")
    def _go_down(self) -> None:
        """Enter on the tree: to what holds it."""
        pane = next((p for p in self.query(SidePane) if p.display and p.grid.shown_keys), None)
        if pane is not None:
            pane.grid.focus()

    @on(Grid.Chosen, "SidePane Grid")
    def _do(self, message: Grid.Chosen) -> None:
        """Enter on a blocker: what can be done about it."""
        self.end_blocker()

    def _show_holding(self) -> None:
        row = self.row_here()
        if self.status is None:
            return
        left, right = self.query(SidePane)
        if row is None:
            left.clear()
            right.display = False
        elif row.middle_ids:
            left.show(self.status, row.middle_ids, Side.NONE)
            right.display = False
        else:
            right.display = True
            left.show(self.status, row.left_ids, Side.LEFT)
            right.show(self.status, row.right_ids, Side.RIGHT)
