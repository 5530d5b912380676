"""The ticks by which a step that can be done is recorded as done."""

from buildlog.facts.bench import Step
from buildlog.facts.naming import position_name
from buildlog.proposals.places import PiecesNamed, read_place
from buildlog.proposals.steps import TickStep
from buildlog.status.accounts import PieceState
from buildlog.status.doable import Doable
from buildlog.status.status import Status
from buildlog.terms import Side


def ticks_of(status: Status, step: Step, doable: Doable) -> list[TickStep]:
    """One in its position; on pieces one for all that are left, of a handed part one for each side."""
    if step.part_id is None:
        assert doable.position_id is not None  # a step of an assembly is done in a position
        return [TickStep(step=step.code, place=read_place(position_name(status.snapshot, doable.position_id)))]
    part = status.snapshot.part[step.part_id]
    sides = _sides_left(status, step) if part.handed else (None,)
    return [TickStep(step=step.code, what=PiecesNamed(code=part.code, side=side)) for side in sides]


def _sides_left(status: Status, step: Step) -> tuple[Side, ...]:
    """Sides of which there are pieces that the step is not done on; both where none are to be seen."""
    done = status.work.pieces.done
    left = [
        lot.side
        for lot in status.snapshot.lots
        if lot.part_id == step.part_id
        and (state := status.accounts.lots[lot.id]).state in (PieceState.FREE, PieceState.FITTED)
        and done.get(lot.id, {}).get(step.id, 0) < state.pieces
    ]
    return tuple(dict.fromkeys(left)) or (Side.LEFT, Side.RIGHT)
