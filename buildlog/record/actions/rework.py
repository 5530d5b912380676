"""Rework that is called for in a position.

A step of kind rework belongs to its assembly; it is owed only in positions where it was called for. The call is a
tick that was opened again in the same moment, so that it is told apart from work that was done.
"""

from buildlog.record.tables.bench import Step, StepDone
from buildlog.record.tables.tree import Assembly, Position
from buildlog.record.writer import Work
from buildlog.terms import StepKind

USUAL_REWORK_MINUTES = 30


def call_for_rework(work: Work, position: Position, name: str) -> Step:
    """Owe rework in a position, in one step per assembly and name."""
    steps = work.all(Step, assembly_id=position.assembly_id, retired_at=None)
    step = next((s for s in steps if s.kind is StepKind.REWORK and s.name == name), None)
    if step is None:
        step = work.add(
            Step(
                code=_free_code(work, position),
                assembly_id=position.assembly_id,
                place=max((s.place for s in steps), default=0) + 1,
                name=name,
                kind=StepKind.REWORK,
                bench_minutes=USUAL_REWORK_MINUTES,
            )
        )
    for tick in work.all(StepDone, step_id=step.id, position_id=position.id, reopened_at=None):
        work.change(tick, reopened_at=max(work.at, tick.at))
    work.add(StepDone(step_id=step.id or 0, position_id=position.id, at=work.at, reopened_at=work.at))
    return step


def reworks_in(work: Work, position_id: int, lot_id: int | None) -> int:
    """How often what stands in a position was reworked by the moment of the work."""
    done = work.all(StepDone, StepDone.at <= work.at, position_id=position_id)
    if lot_id is not None:
        done += work.all(StepDone, StepDone.at <= work.at, lot_id=lot_id)
    return sum(work.get(Step, tick.step_id).kind is StepKind.REWORK and tick.reopened_at != tick.at for tick in done)


def _free_code(work: Work, position: Position) -> str:
    stem = work.get(Assembly, position.assembly_id).code[:20]
    taken = {step.code for step in work.all(Step)}
    return next(code for n in range(1, 1000) if (code := f"{stem}-RW{n}"[:24]) not in taken)
