"""What is on the printers, before the whole record is read and reckoned with.

Told by the same functions as the Status tells it, from the same rows; what takes more rows waits for the Status.
"""

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.status.on_printers import OnPrinter, on_printers, where_loaded
from buildlog.status.set_up import settle_set_ups
from buildlog.status.spool_account import settle_spools
from buildlog.terms import Moment


@frozen
class FirstLook:
    """``printers`` are the live ones; the ``snapshot`` holds what they rest on and nothing else."""

    now: Moment
    snapshot: Snapshot
    printers: tuple[OnPrinter, ...]


def look_first(snapshot: Snapshot, now: Moment) -> FirstLook:
    set_up = settle_set_ups(snapshot, now)
    spools = where_loaded(settle_spools(snapshot, now), set_up)
    return FirstLook(now, snapshot, on_printers(snapshot, now, set_up, spools))
