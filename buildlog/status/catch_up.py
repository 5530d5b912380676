"""What should have happened since the last entry, for a person to answer one by one.

Prints come before the bench work that takes their pieces: answered from the top, everything is on the record by the
time that something else rests on it.
"""

from collections.abc import Iterable, Set

from buildlog.facts.journal import SEVERAL, JournalGroup
from buildlog.status.due import Due
from buildlog.status.due_bench import due_cures, due_fits, due_steps
from buildlog.status.due_prints import due_printers, due_prints
from buildlog.status.due_shots import due_shots
from buildlog.status.due_stock import due_parcels, due_weighings
from buildlog.status.since_when import SinceWhen
from buildlog.status.status import Status
from buildlog.terms import Moment, minutes_between

SITTING_MINUTES = 180
"""Our choice: entries less than three hours apart are of one sitting, which catches up with what was before it."""

LOOKS_BACK = 500
"""So many journal groups are looked through for the last entry: more than one sitting makes."""


def catch_up(status: Status, since: Moment, settled: Set[str] = frozenset()) -> tuple[Due, ...]:
    """All that should have happened between ``since`` and the moment of the status, in the order to answer it.

    ``settled`` are keys that were answered in this sitting without anything to record.
    """
    opened = SinceWhen(status)
    found = (
        *due_printers(status),
        *due_prints(status, since, settled),
        *due_parcels(status),
        *due_shots(status, since),
        *due_cures(status, since),
        *due_steps(status, since, opened),
        *due_fits(status, since, opened),
        *due_weighings(status, since),
    )
    return tuple(due for due in found if due.key not in settled)


def last_entry_before(groups: Iterable[JournalGroup], now: Moment) -> Moment:
    """Up to when the ledger was told before this sitting; ``now`` where it never was.

    ``groups`` are the newest of the journal, newest first; where all of them are of this sitting, the oldest counts.
    What was told late counts as of when it happened, so that catching up can be broken off and gone on with.
    """
    begins = now
    listed = list(groups)
    for place, group in enumerate(listed):
        if minutes_between(group.recorded_at, begins) >= SITTING_MINUTES:
            return max(_told_until(before) for before in listed[place:])
        begins = min(begins, group.recorded_at)
    return begins


def _told_until(group: JournalGroup) -> Moment:
    """Many wishes at once, as a file that was read, have many moments: they count as of their recording."""
    return group.recorded_at if group.action == SEVERAL else group.at
