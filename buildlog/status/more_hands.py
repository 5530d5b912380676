"""Steps that a helper can do, or that need two, of those that can be done now."""

from collections.abc import Iterable
from dataclasses import dataclass

from buildlog.errors import Refused
from buildlog.facts.bench import Step
from buildlog.proposals.steps import TickStep, TickSteps
from buildlog.status.doable import Doable
from buildlog.status.status import Status
from buildlog.status.ticks import ticks_of
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
            for tick in ticks_of(status, step, doable):
                where = str(tick.place or tick.what)
                found.append(HelperStep(f"{step.code} {where}", step, doable, where, tick))
    return tuple(found)


def ticks_named(status: Status, names: Iterable[str]) -> TickSteps:
    """The ticks of steps named as the list names them; Refused for one that is not on it."""
    by_name = {found.name.casefold(): found for found in helper_steps(status)}
    wanted = [" ".join(name.split()) for name in names]
    unknown = [name for name in wanted if name.casefold() not in by_name]
    if unknown:
        there = few(tuple(found.name for found in by_name.values())) or "nothing"
        raise Refused(f"«{unknown[0]}» is not on the helper's list. There is: {there}. Nothing was ticked.")
    return TickSteps(tuple(by_name[key].tick for key in dict.fromkeys(name.casefold() for name in wanted)))
