"""What is to be said before a wish is recorded: its cautions, and spools that may not carry it."""

from typing import Any

from buildlog.proposals.fits import RecordFit
from buildlog.proposals.prints import StartPrint
from buildlog.proposals.spools import DrySpool
from buildlog.proposals.steps import TickStep, TickSteps
from buildlog.status.cautions import DRYING, UNATTENDED, caution_of_step, caution_of_test
from buildlog.status.offers import Offer
from buildlog.status.spool_check import SpoolCheck
from buildlog.status.status import Status
from buildlog.terms import later
from buildlog.wording import soon


def cautions_of(wish: Any, status: Status) -> tuple[str, ...]:
    """Keys of the cautions that belong to a wish, said before it is recorded; none for most."""
    snapshot = status.snapshot
    match wish:
        case StartPrint():
            offered = {key for offer in _offers(wish, status) for key in offer.cautions if key != UNATTENDED}
            return (*((UNATTENDED,) if wish.unattended else ()), *sorted(offered))
        case TickStep():
            kinds = (step.kind for step in snapshot.steps if step.code == wish.step)
            return tuple(key for kind in kinds if (key := caution_of_step(kind)))
        case TickSteps():
            return tuple(dict.fromkeys(key for tick in wish.ticks for key in cautions_of(tick, status)))
        case RecordFit():
            tests = (test.kind for test in snapshot.fit_tests if test.code == wish.test)
            return tuple(key for kind in tests if (key := caution_of_test(kind)))
        case DrySpool():
            return (DRYING,)
        case _:
            return ()


def spools_in_question(wish: Any, status: Status) -> tuple[str, ...]:
    """What is to be said of the loaded spools of a start that may not carry it: «412 g, needs 380 g: tight», and
    when it has to be changed where the printer waits for that.
    """
    if not isinstance(wish, StartPrint) or wish.spools or wish.ended is not None:
        return ()
    doubtful = (
        f"{check.text}{_change(offer, check, status)}"
        for offer in _offers(wish, status)
        for check in offer.spools
        if not check.enough or check.wet
    )
    return tuple(dict.fromkeys(doubtful))


def _change(offer: Offer, check: SpoolCheck, status: Status) -> str:
    """When the spool is empty, if the print takes it evenly (approximation)."""
    printer = status.snapshot.printer[offer.printer_id]
    if check.carries or check.spool_id is None or not printer.stops_at_filament_end:
        return ""
    empty_at = later(status.now, offer.minutes * max(0, check.has_mg) // check.needed_mg)
    return f", change it about {soon(empty_at, status.now, status.snapshot.settings.home_zone)}"


def _offers(wish: StartPrint, status: Status) -> tuple[Offer, ...]:
    """The offers of the file on the printer; a start by the number of a queued print is found by its file."""
    snapshot = status.snapshot
    by_job = {job.id: job.print_file_id for job in snapshot.jobs} if wish.job is not None else {}
    codes = {file.id: file.code for file in snapshot.print_files}
    printers = {printer.id: printer.code for printer in snapshot.printers}
    return tuple(
        offer
        for offer in status.machines.offers
        if offer.print_file_id == by_job.get(wish.job or 0) or codes[offer.print_file_id] == wish.file
        if wish.printer in (None, printers[offer.printer_id])
    )
