"""Where on Mirror a thing is found: the assembly that it belongs to."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable

    from buildlog.facts.snapshot import Snapshot


def assembly_of(snapshot: Snapshot, noun: str, row_id: int) -> int | None:
    """Id of the assembly where a thing of this noun is at home; None where it is in none."""
    if noun == "assembly":
        return row_id
    if noun == "position":
        return snapshot.position[row_id].assembly_id
    if noun == "build":
        return next((a.id for a in snapshot.assemblies if a.build_id == row_id and a.parent_id is None), None)
    if noun == "part":
        return _of_part(snapshot, row_id)
    if noun == "usage":
        return _row(snapshot.usages, row_id).assembly_id if _row(snapshot.usages, row_id) else None
    if noun == "lot":
        lot = _row(snapshot.lots, row_id)
        return _of_part(snapshot, lot.part_id) if lot else None
    if noun == "fit test":
        test = _row(snapshot.fit_tests, row_id)
        return test.assembly_id if test else None
    if noun == "step":
        step = _row(snapshot.steps, row_id)
        return (step.assembly_id or _of_part(snapshot, step.part_id)) if step else None
    targets = [t for t in snapshot.question_targets if t.question_id == row_id] if noun == "question" else []
    places = (t.assembly_id or _of_part(snapshot, t.part_id) for t in targets)
    return next((place for place in places if place is not None), None)


def _of_part(snapshot: Snapshot, part_id: int | None) -> int | None:
    """Where a part is used; where it no longer is, where it was last."""
    usages = [usage for usage in snapshot.usages if usage.part_id == part_id]
    usages.sort(key=lambda usage: (usage.ended_at is not None, usage.id))
    return usages[0].assembly_id if usages else None


def _row(rows: Iterable[Any], row_id: int) -> Any:
    return next((row for row in rows if row.id == row_id), None)
