"""Blockers of questions that are open."""

from collections.abc import Iterable

from buildlog.facts.snapshot import Snapshot
from buildlog.status import bench_minutes
from buildlog.status.blocker import Blocker, BlockerKind, Thing
from buildlog.status.needs import Needs
from buildlog.terms import Side


def open_questions(snapshot: Snapshot, needs: Needs) -> dict[int, list[Blocker]]:
    """By position: questions that hold its assembly, or a part that it takes."""
    open_ones = {q.id: q for q in snapshot.questions if q.answered_at is None and q.retired_at is None}
    targets = [t for t in snapshot.question_targets if t.question_id in open_ones]
    found: dict[int, dict[int, Blocker]] = {}
    parts = {t.part_id for t in targets if t.part_id is not None}
    takes: dict[int, set[tuple[int, Side]]] = {}
    for position_id, slots in needs.by_position.items() if parts else ():
        for slot in slots:
            if slot.part in parts:
                takes.setdefault(slot.part, set()).add((position_id, slot.side))
    for target in targets:
        question = open_ones[target.question_id]
        places: Iterable[tuple[int, Side]]
        if target.assembly_id is not None:
            places = [(p.id, p.side) for p in snapshot.positions_of.get(target.assembly_id, ())]
        else:
            places = takes.get(target.part_id or 0, ())
        for position_id, side in places:
            if target.side is None or side in (target.side, Side.NONE):
                found.setdefault(position_id, {})[question.id] = Blocker(
                    BlockerKind.QUESTION,
                    position_id,
                    Thing("question", question.id, question.code),
                    question.text,
                    bench_minutes=bench_minutes.DECIDE,
                )
    return {position_id: list(by_question.values()) for position_id, by_question in found.items()}
