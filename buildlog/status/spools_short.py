"""Which spools of a start do not bear it in one go."""

from buildlog.facts.printing import Feed, FileTool
from buildlog.proposals.prints import StartPrint
from buildlog.status.spool_check import spool_check
from buildlog.status.status import Status


def spools_short(wish: StartPrint, status: Status) -> str:
    """«A1: 412 g, needs 480 g: not enough», head by head; empty where all bear it, or where it is not known which
    spool or how many grams are meant. A print that is over has used what it used.
    """
    if wish.ended is not None:
        return ""
    snapshot = status.snapshot
    needed = _needed_mg(wish, status)
    loaded = _loaded(wish, status)
    codes = {spool.id: spool.code for spool in snapshot.spools}
    by_code = {code: spool_id for spool_id, code in codes.items()}
    named = dict(zip(sorted(needed), (by_code.get(code) for code in wish.spools), strict=False))
    found = []
    for head, mg in sorted(needed.items()):
        state = status.accounts.spools.get(named.get(head) or loaded.get(head) or 0)
        if state is None:
            continue
        check = spool_check(mg, state, snapshot.reference, status.now)
        if not check.carries:
            found.append(f"{codes[state.spool_id]}: {check.text}")
    return "; ".join(found)


def _needed_mg(wish: StartPrint, status: Status) -> dict[int, int]:
    """By head, as the queued print or the file says."""
    snapshot = status.snapshot
    asked: list[Feed] | list[FileTool] = []
    if wish.job is not None:
        asked = snapshot.feeds_of_job.get(wish.job, [])
    elif wish.file is not None:
        file_id = next((file.id for file in snapshot.print_files if file.code == wish.file), 0)
        asked = snapshot.tools_of_file.get(file_id, [])
    needed = {one.head: one.part_mg + one.support_mg + one.purge_mg for one in asked}
    return needed if wish.grams is None else needed | {min(needed, default=1): wish.grams}


def _loaded(wish: StartPrint, status: Status) -> dict[int, int]:
    """Spools by head of the printer that is meant."""
    snapshot = status.snapshot
    planned = next((job.printer_id for job in snapshot.jobs if job.id == wish.job), None)
    for printer in snapshot.printers:
        if printer.code == wish.printer or (wish.printer is None and printer.id == planned):
            return dict(status.accounts.set_up[printer.id].loaded)
    return {}
