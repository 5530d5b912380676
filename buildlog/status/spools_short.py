"""Which spools of a start do not bear it in one go."""

from buildlog.proposals.prints import StartPrint
from buildlog.status.spool_check import spool_check
from buildlog.status.start_heads import what_starts
from buildlog.status.status import Status


def spools_short(wish: StartPrint, status: Status) -> str:
    """«A1: 412 g, needs 480 g: not enough», head by head; empty where all bear it, or where it is not known which
    spool or how many grams are meant. A print that is over has used what it used.
    """
    if wish.ended is not None:
        return ""
    codes = {spool.id: spool.code for spool in status.snapshot.spools}
    found = []
    for head in what_starts(wish, status).heads:
        if head.spool is None or not head.needed_mg:
            continue
        check = spool_check(head.needed_mg, head.spool, status.snapshot.reference, status.now)
        if not check.carries:
            found.append(f"{codes[head.spool.spool_id]}: {check.text}")
    return "; ".join(found)
