"""Wishes that depend on how things stand: which pieces a step or a fit takes is told by the allotment.

The actions check that what is named here is still free when they write.
"""

import dataclasses
from typing import Any

from buildlog.facts.snapshot import Snapshot
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.steps import TickStep
from buildlog.status.places import positions_at
from buildlog.status.slot import Holds, Slot
from buildlog.status.status import Status
from buildlog.terms import Moment


def needs_status(wish: Any) -> bool:
    """Whether the wish wants completing."""
    return isinstance(wish, TickStep | RecordFit) and not wish.fits


def completed(wish: Any, status: Status, at: Moment | None = None) -> Any:
    """The wish with the pieces allotted to the slots it concerns, as far as they were there ``at``."""
    if isinstance(wish, TickStep) and wish.place is not None and _takes_pieces(status.snapshot, wish.step):
        found = positions_at(status.snapshot, wish.place)
        slots = [slot for position in found[:1] for slot in status.needs.by_position.get(position, ())]
        taken = _there(status, slots, at)
        return dataclasses.replace(wish, fits=tuple((s.usage, s.number, s.piece) for s in taken if s.piece))
    if isinstance(wish, RecordFit):
        taken = _there(status, _tried(status, wish), at)
        return dataclasses.replace(
            wish, fits=tuple((s.position, s.usage, s.number, s.piece) for s in taken if s.piece)
        )
    return wish


def _takes_pieces(snapshot: Snapshot, code: str) -> bool:
    return any(step.code == code and step.kind.holds_slots for step in snapshot.steps)


def _tried(status: Status, wish: RecordFit) -> list[Slot]:
    """Slots of the test's usages in its position and below."""
    tests = [test.id for test in status.snapshot.fit_tests if test.code == wish.test]
    usages = {link.usage_id for link in status.snapshot.fit_test_usages if link.fit_test_id in tests}
    found: list[Slot] = []
    waiting = list(positions_at(status.snapshot, wish.place)[:1])
    while waiting:
        position = waiting.pop()
        found += [slot for slot in status.needs.by_position.get(position, ()) if slot.usage in usages]
        waiting += status.blockers.children.get(position, ())
    return found


def _there(status: Status, slots: list[Slot], at: Moment | None) -> list[Slot]:
    """Slots with an allotted piece that is done with its own steps and was made by then."""
    made = {lot.id: lot.made_at for lot in status.snapshot.lots}
    return [
        slot
        for slot in slots
        if slot.holds is Holds.ALLOTTED
        and slot.piece is not None
        and not slot.open_steps
        and (at is None or made[slot.piece] <= at)
    ]
