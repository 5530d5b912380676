"""The lines of Catch up, and what each answer means for one of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from buildlog.screens.keys import Scope, keys_of
from buildlog.screens.lines import section, soon
from buildlog.screens.own_keys import OwnKeys, as_set
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.rows import Cell, GridRow
from buildlog.screens.widgets.tones import Tone
from buildlog.status.due import Answer, DueKind
from buildlog.wording import count

if TYPE_CHECKING:
    from buildlog.status.due import Due
    from buildlog.status.status import Status
    from buildlog.terms import Moment

HEADINGS = {
    DueKind.PRINTER: "Printers that should be up again",
    DueKind.PRINT: "Prints",
    DueKind.PARCEL: "Parcels",
    DueKind.SHOT: "Shots not ticked",
    DueKind.CURE: "Cured meanwhile",
    DueKind.STEP: "Bench work that was open",
    DueKind.FIT: "Fits that could be tried",
    DueKind.SPOOL: "Spools not weighed",
}
ANSWERS = {"as_planned": Answer.AS_PLANNED, "went_wrong": Answer.FAILED, "not_done": Answer.NOT_DONE}
"""By the ids of their keys; what «later» means is always the same."""


def due_rows(dues: Sequence[Due]) -> list[GridRow]:
    """Under a heading for each kind, in the order to answer them."""
    rows: list[GridRow] = []
    for kind, title in HEADINGS.items():
        rows += section(kind.value, title, [_row(due) for due in dues if due.kind is kind])
    return rows


def _row(due: Due) -> GridRow:
    cells = (Cell(due.where, Tone.STRONG), Cell(due.what), Cell(due.told, Tone.FAINT))
    return GridRow(due.key, cells)


def headline(dues: Sequence[Due], since: Moment, status: Status) -> list[Fact]:
    """How many wait, and since when nothing was told."""
    last = soon(since, status.now, status.snapshot.settings.home_zone)
    waits = count(len(dues), "thing") if dues else "nothing"
    return [Fact("to catch up with", waits), Fact("since", last)]


def answers_told(due: Due, own: OwnKeys) -> list[Fact]:
    """``y all pieces good   x failed: when, what is left   n still runs   l later``."""
    keys = {key.id: key.face for key in as_set(keys_of(Scope.CATCH_UP), own)}
    told = [Fact(keys[name], due.reply(answer).words, Tone.PLAIN) for name, answer in ANSWERS.items()]
    return [*told, Fact(keys["ask_later"], "later", Tone.PLAIN)]
