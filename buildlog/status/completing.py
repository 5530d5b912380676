"""Wishes that depend on how things stand: which pieces a step or a fit takes is told by the allotment, which spools
do not bear a print by their accounts.

The actions check that what is named here is still free when they write.
"""

import dataclasses
from collections.abc import Iterable
from typing import Any, TypeVar

from buildlog.facts.bench import FitTest, Step
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.prints import StartPrint
from buildlog.proposals.steps import TickStep, TickSteps
from buildlog.status.fitting_pieces import fitted_by_step, fitted_by_test
from buildlog.status.places import positions_at
from buildlog.status.spools_short import spools_short
from buildlog.status.status import Status
from buildlog.terms import Moment

Coded = TypeVar("Coded", Step, FitTest)


def needs_status(wish: Any) -> bool:
    """Whether the wish wants completing."""
    if isinstance(wish, StartPrint):
        return not wish.anyway
    return isinstance(wish, TickStep | RecordFit) and wish.place is not None and not wish.fits


def completed(wish: Any, status: Status, at: Moment | None = None) -> Any:
    """The wish with the pieces allotted to the slots it concerns, as far as they were there ``at``.

    A place that names no position, or several, is left to the action to refuse.
    """
    if isinstance(wish, TickSteps):
        return TickSteps(tuple(completed(tick, status, at) for tick in wish.ticks))
    if not needs_status(wish):
        return wish
    if isinstance(wish, StartPrint):  # what a spool held at another moment is not looked up
        return dataclasses.replace(wish, spools_short="" if at else spools_short(wish, status))
    found = positions_at(status.snapshot, wish.place)
    if len(found) != 1:
        return wish
    snapshot = status.snapshot
    if isinstance(wish, TickStep):
        step = _coded(snapshot.steps, wish.step)
        fits: tuple[Any, ...] = fitted_by_step(status.needs, status.work, step.id, found[0]) if step else ()
    else:
        test = _coded(snapshot.fit_tests, wish.test)
        fits = fitted_by_test(status.needs, status.fits, test.id, found[0]) if test else ()
    made = {lot.id: lot.made_at for lot in snapshot.lots} if at else {}
    there = tuple(fit for fit in fits if fit[-1] is None or at is None or made[fit[-1]] <= at)
    return dataclasses.replace(wish, fits=there)


def _coded(rows: Iterable[Coded], code: str) -> Coded | None:
    return next((row for row in rows if row.code == code), None)
