"""Fits of pieces that lie there for slots filled without steps: due, though nothing is fitted."""

from dataclasses import replace

from buildlog.facts.snapshot import Snapshot
from buildlog.status.filling import Filling
from buildlog.status.fits import Fits, Verdict
from buildlog.status.needs import Needs


def with_pieces_lying_there(snapshot: Snapshot, fits: Fits, needs: Needs) -> Fits:
    """A test that waited for its slots is due when each holds something, pieces allotted where there are no steps
    counted. The sides held stay as the allotment took them.
    """
    waiting = {(s.test_id, s.position_id) for s in fits.all if not s.can_test}
    if not waiting:
        return fits
    filling = Filling(snapshot)
    slots = {slot[:3]: slot for found in needs.by_position.values() for slot in found}
    due = {
        key
        for key in waiting
        if (touched := fits.touched[key])
        and all((slot := slots.get(place)) is not None and filling.holds_something(slot) for place in touched)
    }
    by_position = {
        position_id: tuple(
            state
            if (state.test_id, position_id) not in due
            else state._replace(can_test=True, verdict=Verdict.DUE, why="to be tested")
            if state.verdict is Verdict.NOT_YET
            else state._replace(can_test=True)
            for state in states
        )
        for position_id, states in fits.by_position.items()
    }
    every = tuple(state for states in by_position.values() for state in states)
    return replace(fits, all=every, by_position=by_position)
