"""Alerts as a list that is as high as it is long, folded beyond five.

alerts.show((Alert("order:amber", "Order 2 × Amber PLA by Thu 12 Nov", Tone.BAD), …))

@on(Grid.Chosen, "#alerts")         # enter on an alert: go to what it is about
"""

from __future__ import annotations

from collections.abc import Sequence

from textual import on

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Cell, Column, GridRow
from buildlog.screens.widgets.tones import Tone

FOLDED_AT = 5
MORE_KEY = "alerts:more"


@frozen
class Alert:
    key: str
    text: str
    tone: Tone = Tone.CAUTION


class AlertList(Grid):
    """A grid without heading; `action_unfold_alerts` shows all of it or folds it again."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__((Column("alert"),), empty="", id=id)
        self._alerts: tuple[Alert, ...] = ()
        self._all = False

    def show(self, alerts: Sequence[Alert]) -> None:
        self._alerts = tuple(alerts)
        self._lay()

    def action_unfold_alerts(self) -> None:
        self._all = not self._all
        self._lay()

    @on(Grid.Chosen)
    def _unfold_from_the_last_line(self, message: Grid.Chosen) -> None:
        if message.key == MORE_KEY:
            message.stop()
            self.action_unfold_alerts()

    def _lay(self) -> None:
        rows = folded([GridRow(a.key, (Cell(a.text, a.tone),)) for a in self._alerts], self._all)
        self.set_rows(rows)
        self.styles.height = len(rows)
        self.display = bool(rows)


def folded(rows: Sequence[GridRow], all_of_them: bool) -> list[GridRow]:
    """The rows with a last line that tells of more; rows of several cells are told so in the second."""
    beyond = len(rows) - FOLDED_AT
    if beyond <= 0:
        return list(rows)
    told = Cell("fold again" if all_of_them else f"… and {beyond} more", Tone.FAINT)
    before = (Cell(""),) if len(rows[0].cells) > 1 else ()
    return [*(rows if all_of_them else rows[:FOLDED_AT]), GridRow(MORE_KEY, (*before, told))]
