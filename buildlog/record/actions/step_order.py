"""Which steps of a position are done, and what keeps the next one from opening."""

from sqlmodel import col

from buildlog.facts.waited_for import waited_for
from buildlog.record.actions.moments import local
from buildlog.record.actions.places import below, live_usages, position_name, slots_of
from buildlog.record.actions.shots_held import shots_holding
from buildlog.record.actions.slot_spans import name_of, standing_in
from buildlog.record.tables.bench import Step, StepDone, Wait
from buildlog.record.tables.tree import Assembly, Position
from buildlog.record.writer import Work
from buildlog.terms import Moment, StepKind, later
from buildlog.wording import few


def tick_in(work: Work, step: Step, position: Position) -> StepDone | None:
    """The tick of a step that counts in a position at the moment of the work."""
    since = position.remade_at if position.remade_at is not None and position.remade_at <= work.at else ""
    ticks = work.all(StepDone, StepDone.step_id == step.id, StepDone.position_id == position.id, order_by=StepDone.at)
    counting = [
        tick
        for tick in ticks
        if since <= tick.at <= work.at and (tick.reopened_at is None or tick.reopened_at > work.at)
    ]
    return counting[-1] if counting else None


def is_owed(work: Work, step: Step, position: Position) -> bool:
    """A step of kind rework that was called for anywhere is owed only where it was called for."""
    if step.kind is not StepKind.REWORK:
        return True
    calls = [
        tick
        for tick in work.all(StepDone, StepDone.step_id == step.id, col(StepDone.position_id).is_not(None))
        if tick.reopened_at == tick.at
    ]
    return not calls or any(tick.position_id == position.id for tick in calls)


def steps_in(work: Work, position: Position) -> list[Step]:
    """Live steps that a position owes, in order."""
    steps = work.all(
        Step, Step.assembly_id == position.assembly_id, col(Step.retired_at).is_(None), order_by=Step.place
    )
    return [step for step in steps if is_owed(work, step, position)]


def why_not_open(work: Work, step: Step, position: Position) -> str:
    """What keeps a step of a position from opening at the moment of the work; empty when it is open."""
    told = (_what_comes_first, _what_is_waited_for, _what_is_not_held, _what_is_filmed_first)
    return "; ".join(filter(None, (tell(work, step, position) for tell in told)))


def what_else_to_do(work: Work, step: Step, position: Position) -> str:
    """Beside doing first what keeps the step: where slots are empty, what is joined may be an assembly of its own."""
    if not _what_is_not_held(work, step, position):
        return ""
    code = work.get(Assembly, step.assembly_id).code if step.assembly_id is not None else ""
    return (
        f" Where fewer pieces are joined than {code} holds, add an assembly below {code} for those that are, and "
        "move them and this step into it; overruled, what lies ready is fitted and the other slots stay empty."
    )


def _what_comes_first(work: Work, step: Step, position: Position) -> str:
    """The step that must be done, or must have cured, before this one opens; empty when it is open."""
    earlier = [s for s in steps_in(work, position) if (s.place, s.id or 0) < (step.place, step.id or 0)]
    for before in earlier:
        tick = tick_in(work, before, position)
        if tick is None:
            return f"«{before.name}» ({before.code}) is to be done first"
        over = later(Moment(tick.at), before.handle_after_minutes)
        if over > work.at:
            return f"«{before.name}» ({before.code}) may be handled from {local(work, over)} on"
    return ""


def _what_is_not_held(work: Work, step: Step, position: Position) -> str:
    """Empty slots and sub-positions with open steps, before the first bonding or assembling step."""
    joints = [s for s in steps_in(work, position) if s.kind.holds_slots]
    if not joints or joints[0].id != step.id:
        return ""
    empty = [
        name_of(work, slot)
        for usage in live_usages(work, position)
        for slot in slots_of(work, position, usage)
        if standing_in(work, slot) is None
    ]
    waiting = _open_work(work, below(work, position)[1:])
    told = [f"empty: {few(empty)}"] if empty else []
    told += [f"not ready: {few(waiting)}"] if waiting else []
    return "; ".join(told)


def _open_work(work: Work, positions: list[Position]) -> list[str]:
    """Those with steps left to do, and the next one: as far as the record alone can tell what is not ready."""
    return [
        f"{position_name(work, position.id or 0)} ({open_step.name})"
        for position in positions
        if (open_step := next((s for s in steps_in(work, position) if tick_in(work, s, position) is None), None))
    ]


def _what_is_filmed_first(work: Work, step: Step, position: Position) -> str:
    return shots_holding(work, step, position.side)


def _what_is_waited_for(work: Work, step: Step, position: Position) -> str:
    """What else must be done before the step opens: steps elsewhere, or all work of other positions."""
    waiting = []
    for wait in work.all(Wait, Wait.step_id == step.id, col(Wait.retired_at).is_(None)):
        live = work.all(Position, Position.assembly_id == wait.on_assembly_id, col(Position.retired_at).is_(None))
        counts = {work.get(Assembly, id_).count for id_ in (position.assembly_id, wait.on_assembly_id)}
        found = waited_for(position, live, same_count=len(counts) == 1)
        if wait.on_step_id is None:
            waiting += _open_work(work, [one for target in found for one in below(work, target)])
        else:
            on_step = work.get(Step, wait.on_step_id)
            undone = [target for target in found if tick_in(work, on_step, target) is None]
            waiting += [f"{position_name(work, target.id or 0)} ({on_step.name})" for target in undone]
    return f"it waits for {few(waiting)}" if waiting else ""
