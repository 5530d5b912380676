"""Alerts as a list that is as high as it is long, folded beyond five.

alerts.show((Alert("order:amber", "Order 2 × Amber PLA by Thu 12 Nov", Tone.BAD), …))

@on(Grid.Chosen, "#alerts")         # enter on an alert: go to what it is about
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual import on

from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.rows import Cell, Column, GridRow
from buildlog.screens.widgets.tones import Tone

FOLDED_AT = 5
MORE_KEY = "alerts:more"


@dataclass(frozen=True, slots=True)
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
        rows = [GridRow(alert.key, (Cell(alert.text, alert.tone),)) for alert in self._alerts]
        beyond = len(rows) - FOLDED_AT
        if beyond > 0:
            told = "fold again" if self._all else f"… and {beyond} more"
            rows = [*(rows if self._all else rows[:FOLDED_AT]), GridRow(MORE_KEY, (Cell(told, Tone.FAINT),))]
        self.set_rows(rows)
        self.styles.height = len(rows)
        self.display = bool(rows)
