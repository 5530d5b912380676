"""How many things wait to be caught up with, as far as the record is sure of it."""

from buildlog.status.print_chains import sure_to_be_due
from buildlog.status.status import Status

SURE_OF = ("order", "printer")


def how_many_wait(status: Status) -> int:
    """Prints past their end with those that would have followed, parcels and printers past their day. Steps, fits and
    weighings are left out: that they could be done does not say that they should have been.
    """
    late = [a for a in status.alerts if a.about is not None and a.about.noun in SURE_OF and a.due_at is not None]
    return len(sure_to_be_due(status)) + len(late)
