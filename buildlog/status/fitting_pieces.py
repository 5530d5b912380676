"""Which pieces a tick or a fit puts into their slots: those allotted at that moment."""

from buildlog.proposals.fits import TriedPiece
from buildlog.proposals.steps import AllottedPiece
from buildlog.status.fits import Fits
from buildlog.status.needs import Needs
from buildlog.status.slot import Holds, Slot
from buildlog.status.work import WorkDone


def fitted_by_step(needs: Needs, work: WorkDone, step_id: int, position_id: int) -> tuple[AllottedPiece, ...]:
    """Ticking the first bonding or assembling step fits them; where there is none, the last step left does."""
    owed = work.steps_in.get(position_id, ())
    left = [step for step in owed if (step.id, position_id) not in work.ticks]
    joints = [step for step in owed if step.kind.holds_slots]
    fits_at = joints[0] if joints else left[-1] if left else None
    if fits_at is None or fits_at.id != step_id:
        return ()
    return tuple(
        (slot.usage, slot.number, slot.piece) for slot in needs.by_position.get(position_id, ()) if _is_to_fit(slot)
    )


def fitted_by_test(needs: Needs, fits: Fits, test_id: int, position_id: int) -> tuple[TriedPiece, ...]:
    """Allotted pieces in the slots that a test touches, before it is recorded."""
    touched = set(fits.touched.get((test_id, position_id), ()))
    places = dict.fromkeys(key[0] for key in touched)
    return tuple(
        (slot.position, slot.usage, slot.number, slot.piece)
        for place in places
        for slot in needs.by_position.get(place, ())
        if slot[:3] in touched and _is_to_fit(slot)
    )


def _is_to_fit(slot: Slot) -> bool:
    """A finished piece lies there for an empty slot; a bought part names none."""
    return slot.holds is Holds.ALLOTTED and slot.stood_in is None and not slot.open_steps
