"""Screen 4: will the material last."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual import on
from textual.containers import Horizontal
from textual.events import DescendantFocus
from textual.widget import Widget

from buildlog.screens.keys import Scope, bindings
from buildlog.screens.stock_keys import StockKeys
from buildlog.screens.widgets.alert_list import MORE_KEY
from buildlog.screens.widgets.cells import Align
from buildlog.screens.widgets.chart import Chart
from buildlog.screens.widgets.facts_line import FactsLine
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Column

if TYPE_CHECKING:
    from buildlog.status.status import Status

LEADS_IN = """No material yet: add one on Things ({go_things}, {add_thing}), receive its spools ({receive_order}).
Or all at once from your lists, in the shell: buildlog read FILE"""
NO_PAST = "Nothing to draw yet: receive spools with {receive_order}, weigh them with {weigh_spool}."
MATERIALS = (
    Column("material", "Will it last?", least=12),
    Column("on_hand", "on hand", width=14, align=Align.RIGHT),
    Column("need", "needs", width=7, align=Align.RIGHT),
    Column("short", "short", width=7, align=Align.RIGHT),
    Column("runs_out", "runs out", width=8, align=Align.RIGHT),
    Column("order_by", "order by", width=8, align=Align.RIGHT),
    Column("packs", "packs", width=5, align=Align.RIGHT),
    Column("coming", "on order", width=18, align=Align.RIGHT, priority=1),
)
SHELF = (Column("line"),)


class StockScreen(StockKeys):
    """Materials with what they need; below what lies there and is to be ordered, beside the burn-down."""

    SCOPE, NAME = Scope.STOCK, "stock"
    CSS_PATH = "stock.tcss"
    BINDINGS = bindings(Scope.STOCK)
    BY_BUILD = False
    QUESTION = "Will the material last, and what must be ordered by when?"
    WORDS = (
        ("on hand ±", "The last reading and what was drawn since; ± grows until the spool is weighed again."),
        ("needs", "Still to be drawn, queued and to print, with failures on top, over all open builds."),
        ("short", "Needs less on hand and on order."),
        ("runs out", "When nothing is left at the pace of the last weeks, with nothing new ordered."),
        ("order by", "The last day of an order that comes before the stock falls below the reserve."),
        ("usual pace", "Stands in until three full weeks of your own prints are known."),
        ("band", "The slow and the fast pace of your weeks."),
        ("basket", "What to order at one supplier; what is needed later rides along."),
        ("wet", "Open longer than its material bears since it was last dried."),
        ("weigh it", "More was drawn than was there, or the last reading differs a lot."),
    )

    def __init__(self) -> None:
        super().__init__()
        self._all_alerts = False

    def body(self) -> Iterable[Widget]:
        yield Grid(MATERIALS, empty=LEADS_IN, id="materials")
        yield FactsLine(id="told-here")
        yield Horizontal(
            Grid(SHELF, empty="Nothing here yet.", id="shelf"), Chart(empty=NO_PAST, id="burn-down"), id="lying"
        )

    def on_mount(self) -> None:
        self.materials.focus()

    @property
    def materials(self) -> Grid:
        return self.query_one("#materials", Grid)

    @property
    def shelf(self) -> Grid:
        return self.query_one("#shelf", Grid)

    def show(self, status: Status) -> None:
        from buildlog.screens.stock_rows import headline, material_rows

        self.headline(headline(status))
        self.materials.set_rows(material_rows(status))
        self._show_material(status)

    def reveal(self, noun: str, row_id: int) -> None:
        """A spool stands under its material."""
        states = self.status.accounts.spools if self.status is not None else {}
        if noun == "spool" and row_id in states:
            self.materials.move_to(f"material:{states[row_id].material_id}")
            if self.status is not None:
                self._show_material(self.status)
        super().reveal(noun, row_id)

    @on(Grid.Highlighted, "#materials")
    def _other_material(self) -> None:
        if self.status is not None:
            self._show_material(self.status)

    @on(Grid.Highlighted, "#shelf")
    def _other_thing(self) -> None:
        self._tell_here()

    @on(Grid.Chosen, "#materials")
    def _go_down(self) -> None:
        """Enter on a material: to its spools."""
        if self.shelf.shown_keys:
            self.shelf.focus()

    @on(Grid.Chosen, "#shelf")
    def _do(self, message: Grid.Chosen) -> None:
        if message.key == MORE_KEY:
            self.action_unfold_alerts()
        else:
            self.act_here()

    @on(DescendantFocus)
    def _other_list(self) -> None:
        self._tell_here()

    def action_unfold_alerts(self) -> None:
        self._all_alerts = not self._all_alerts
        if self.status is not None:
            self._show_material(self.status)

    def _show_material(self, status: Status) -> None:
        """Spools and burn-down of the material under the cursor; of print hours with all spools."""
        from buildlog.screens.stock_chart import burn_down_chart
        from buildlog.screens.stock_shelf import shelf_rows

        self.shelf.set_rows(shelf_rows(status, self.material_here, self._all_alerts))
        self.query_one(Chart).show(burn_down_chart(status, self.material_here))
        self._tell_here()

    def _tell_here(self) -> None:
        from buildlog.screens.stock_told import told_of

        if self.status is not None:
            key = (self.shelf if self.shelf.has_focus else self.materials).cursor_key
            self.query_one("#told-here", FactsLine).show(told_of(self.status, key or ""))
