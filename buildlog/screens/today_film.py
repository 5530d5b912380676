"""What is to be filmed before something that cannot be undone, as lines of Today."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.facts.naming import position_name
from buildlog.screens.lines import BETWEEN, line, section
from buildlog.screens.widgets.rows import Cell, GridRow, SpanCell
from buildlog.screens.widgets.tones import Tone
from buildlog.status.blocker import Blocker, BlockerKind
from buildlog.wording import span

if TYPE_CHECKING:
    from buildlog.status.status import Status


def film_rows(status: Status) -> list[GridRow]:
    """Key ``shot:ID``: each shot that holds a step open otherwise, with the first place that it holds."""
    held: dict[int, Blocker] = {}
    for leaves in status.blockers.leaves.values():
        for leaf in leaves:
            if leaf.kind is BlockerKind.FILM_FIRST and leaf.bench_minutes is not None:
                held.setdefault(leaf.about.id, leaf)
    return section("film", "Film first, it cannot be undone", [_row(status, leaf) for leaf in held.values()])


def _row(status: Status, leaf: Blocker) -> GridRow:
    shot = next(shot for shot in status.snapshot.shots if shot.id == leaf.about.id)
    step = next(step for step in status.snapshot.steps if step.id == shot.step_id)
    told = f"look at the footage: {shot.what}" if shot.filmed_at is not None else shot.what
    before = f"{BETWEEN}before {step.name}, {position_name(status.snapshot, leaf.position_id)}"
    minutes = span(leaf.bench_minutes) if leaf.bench_minutes else ""
    spans = SpanCell(((told, Tone.PLAIN), (before, Tone.FAINT)))
    return line(f"shot:{shot.id}", Cell(shot.code, Tone.CAUTION), spans, minutes)
