"""Steps that a helper can do, or that need two, of those that can be done now."""

from collections.abc import Iterable
from dataclasses import dataclass

from buildlog.errors import Refused
from buildlog.facts.bench import Step
from buildlog.facts.naming import position_name
from buildlog.proposals.places import PiecesNamed, read_place
from buildlog.proposals.steps import TickStep, TickSteps
from buildlog.status.accounts import PieceState
from buildlog.status.doable import Doable
from buildlog.status.status import Status
from buildlog.terms import Side
from buildlog.wording import few


@dataclass(frozen=True, slots=True)
class HelperStep:
    """``name`` is how it is ticked: ``HEAD-SAND HEAD``, ``FL07-SAND FL07``; ``tick`` is the wish."""

    name: str
    step: Step
    doable: Doable
    where: str
    tick: TickStep


def helper_steps(status: Status) -> tuple[HelperStep, ...]:
    """In the order of what helps most."""
    found = []
    for doable in status.doable:
        if doable.about.noun == "step" and (doable.helper_can or doable.needs_two):
            step = next(step for step in status.snapshot.steps if step.id == doable.about.id)
            for tick in _ticks_of(status, step, doable):
                where = str(tick.place or tick.what)
                found.append(HelperStep(f"{step.code} {where}", step, doable, where, tick))
    return tuple(found)


def _ticks_of(status: Status, step: Step, doable: Doable) -> list[TickStep]:
    """One in its position; on pieces one for all that are left, of a handed part one for each side."""
    if step.part_id is None:
        assert doable.position_id is not None  # a step of an assembly is done in a position
        return [TickStep(step=step.code, place=read_place(position_name(status.snapshot, doable.position_id)))]
    part = status.snapshot.part[step.part_id]
    sides = _sides_left(status, step) if part.handed else (None,)
    return [TickStep(step=step.code, what=PiecesNamed(code=part.code, side=side)) for side in sides]


def _sides_left(status: Status, step: Step) -> tuple[Side, ...]:
    """Sides of which there are pieces that the step is not done on."""
    done = status.work.pieces.done
    left = [
        lot.side
        for lot in status.snapshot.lots
        if lot.part_id == step.part_id
        and (state := status.accounts.lots[lot.id]).state in (PieceState.FREE, PieceState.FITTED)
        and done.get(lot.id, {}).get(step.id, 0) < state.pieces
    ]
    return tuple(dict.fromkeys(left))


def ticks_named(status: Status, names: Iterable[str]) -> TickSteps:
    """The ticks of steps named as the list names them; Refused for one that is not on it."""
    by_name = {found.name.casefold(): found for found in helper_steps(status)}
    wanted = [" ".join(name.split()) for name in names]
    unknown = [name for name in wanted if name.casefold() not in by_name]
    if unknown:
        there = few(tuple(found.name for found in by_name.values())) or "nothing"
        raise Refused(f"«{unknown[0]}» is not on the helper's list. There is: {there}. Nothing was ticked.")
    return TickSteps(tuple(by_name[name.casefold()].tick for name in wanted))
