"""Wishes that depend on how things stand: which pieces a step or a fit takes is told by the allotment, which spools
do not bear a print by their accounts.

The actions check that what is named here is still free when they write.
"""

import dataclasses
from collections.abc import Iterable
from typing import Any, TypeVar

from buildlog.facts.bench import FitTest, Step
from buildlog.facts.stock import Spool
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.prints import StartPrint
from buildlog.proposals.spools import WeighSpool
from buildlog.proposals.steps import TickStep, TickSteps
from buildlog.status.as_of import as_of
from buildlog.status.fitting_pieces import fitted_by_step, fitted_by_test
from buildlog.status.places import positions_at
from buildlog.status.spool_account import surprise
from buildlog.status.spools_short import spools_short
from buildlog.status.status import Status
from buildlog.terms import Moment

Coded = TypeVar("Coded", Step, FitTest, Spool)


def needs_status(wish: Any) -> bool:
    """Whether the wish wants completing."""
    if isinstance(wish, StartPrint):
        return not wish.anyway
    if isinstance(wish, WeighSpool):
        return True
    return isinstance(wish, TickStep | RecordFit) and wish.place is not None and not wish.fits


def completed(wish: Any, status: Status, at: Moment | None = None) -> Any:
    """The wish with the pieces allotted to the slots it concerns as of ``at``.

    A place that names no position, or several, is left to the action to refuse.
    """
    if isinstance(wish, TickSteps):
        then = as_of(status, at) if any(map(needs_status, wish.ticks)) else status
        return TickSteps(tuple(completed(tick, then, at) for tick in wish.ticks))
    if not needs_status(wish):
        return wish
    if isinstance(wish, StartPrint):  # what a spool held at another moment is not looked up
        return dataclasses.replace(wish, spools_short="" if at else spools_short(wish, status))
    if isinstance(wish, WeighSpool):
        return _weighed(wish, as_of(status, at))
    snapshot = status.snapshot
    found = positions_at(snapshot, wish.place)
    if len(found) != 1:
        return wish
    then = as_of(status, at)
    if isinstance(wish, TickStep):
        step = _coded(snapshot.steps, wish.step)
        fits: tuple[Any, ...] = fitted_by_step(then.needs, then.work, step.id, found[0]) if step else ()
    else:
        test = _coded(snapshot.fit_tests, wish.test)
        fits = fitted_by_test(then.needs, then.fits, test.id, found[0]) if test else ()
    return dataclasses.replace(wish, fits=fits)


def _weighed(wish: WeighSpool, status: Status) -> WeighSpool:
    spool = _coded(status.snapshot.spools, wish.spool)
    if spool is None or spool.received_at > status.now:
        return wish
    told = surprise(status.snapshot, spool, status.accounts.spools[spool.id], wish.gross)
    return dataclasses.replace(wish, surprise=told)


def _coded(rows: Iterable[Coded], code: str) -> Coded | None:
    return next((row for row in rows if row.code == code), None)
