"""The tree of Mirror as rows, and its headline, from a Status."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.lengths import Lengths, SideProgress
from buildlog.screens.widgets.mirror_cell import MirrorCell
from buildlog.screens.widgets.rows import GridRow
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import hours

if TYPE_CHECKING:
    from buildlog.status.progress import MirrorRow, PositionProgress
    from buildlog.status.status import Status


def headline(status: Status, build_ids: list[int]) -> list[Fact]:
    """How much of each build is there; of one alone what holds it, hours to print, how much is held or stood in."""
    tops = {build_id: rows[0].middle for build_id in build_ids if (rows := status.progress.mirror(build_id))}
    names = {build.id: build.name for build in status.snapshot.builds}
    facts = [Fact(names[build_id], f"{top.filled} of {top.slots} slots") for build_id, top in tops.items() if top]
    top = next(iter(tops.values()), None)
    if len(facts) != 1 or top is None:
        return facts or [Fact("build", names[build_id]) for build_id in build_ids]
    if top.ready:
        return [*facts, Fact("all of it", "ready", Tone.GOOD)]
    facts += [Fact("held by", str(top.blockers_beneath)), Fact("to print", hours(top.hours_beneath_minutes))]
    if top.held:
        facts.append(Fact("on purpose", str(top.held), Tone.HELD))
    if top.stood_in:
        facts.append(Fact("stand-ins", str(top.stood_in), Tone.STAND_IN))
    return facts


def tree_rows(status: Status, build_ids: list[int]) -> list[GridRow]:
    """Key ``assembly:ID``; one tree after the other."""
    apart = {pair.assembly_id for pair in status.sides.pairs if not pair.in_step}
    return [
        GridRow(f"assembly:{row.assembly_id}", (_cell(status, row, row.assembly_id in apart),), depth=row.depth)
        for build_id in build_ids
        for row in status.progress.mirror(build_id)
    ]


def _cell(status: Status, row: MirrorRow, out_of_step: bool) -> MirrorCell:
    several = max(len(row.left_ids), len(row.right_ids), len(row.middle_ids))
    name = status.snapshot.assembly[row.assembly_id].name
    return MirrorCell(
        f"{name} ×{several}" if several > 1 else name,
        left=_side(status, row.left, row.left_ids),
        right=_side(status, row.right, row.right_ids),
        middle=_side(status, row.middle, row.middle_ids),
        lead=row.lead_side,
        out_of_step=out_of_step,
    )


def _side(status: Status, told: PositionProgress | None, position_ids: tuple[int, ...]) -> SideProgress | None:
    if told is None:
        return None
    held = not told.ready and all(position_id in status.needs.held_positions for position_id in position_ids)
    lengths = Lengths(
        _share(told.printed_minutes, told.printed_total),
        _share(told.worked_minutes, told.worked_total),
        _share(told.passed, told.tests),
    )
    return SideProgress(lengths, told.filled, told.slots, told.stood_in, held, told.ready)


def _share(done: int, total: int) -> float | None:
    return done / total if total else None
