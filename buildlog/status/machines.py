"""What is on each printer, and what to put on now."""

from collections import defaultdict
from dataclasses import fields, replace

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.hours import Hours, RunningJob
from buildlog.status.needs import Needs
from buildlog.status.offers import Offer, offers_for
from buildlog.status.on_printers import OnPrinter, on_printers
from buildlog.terms import Moment, later

__all__ = ["MachineState", "Machines", "Offer", "look_at_machines"]

LIKELY = 3


@frozen
class MachineState(OnPrinter):
    """``running`` is what it prints now (past its end: ``running.past_end``, it waits to be taken off);
    ``next_job_id`` the first of its queue.
    """

    running: RunningJob | None
    next_job_id: int | None


@frozen
class Machines:
    """``printers`` are the live ones. ``offers`` are all ready files that lay down something still to get, on every
    printer that can and is up, as if started now: in allotment order of the first slot they serve.
    """

    printers: tuple[MachineState, ...]
    offers: tuple[Offer, ...]
    now: Moment

    def window(self, leaving_at: Moment, back_at: Moment) -> tuple[Offer, ...]:
        """What to put on when leaving, so that it ends by the return: longest first, in allotment order where equal.
        A printer that is taken until after leaving is left out.
        """
        free = {m.printer_id for m in self.printers if _free_at(m, leaving_at)}
        found = []
        for offer in self.offers:
            ends_at = later(leaving_at, offer.minutes)
            if offer.printer_id in free and ends_at <= back_at:
                found.append(replace(offer, ends_at=ends_at))
        return tuple(sorted(found, key=lambda offer: (-offer.minutes, offer.rank, offer.print_file_id)))

    def likely(self, printer_id: int) -> tuple[Offer, ...]:
        """The three most likely files to start next on a printer: those that its loaded spools carry first."""
        here = [offer for offer in self.offers if offer.printer_id == printer_id]
        return tuple(sorted(here, key=lambda offer: (not offer.carried, offer.rank, offer.print_file_id))[:LIKELY])


def look_at_machines(snapshot: Snapshot, now: Moment, accounts: Accounts, needs: Needs, hours: Hours) -> Machines:
    """Every live printer at ``now``, and the files that could go on."""
    running = {job.job_id: job for job in hours.running}
    queue: defaultdict[int, list[int]] = defaultdict(list)
    for queued in hours.queued:
        for printer_id in queued.printer_ids:
            queue[printer_id].append(queued.job_id)
    printers = tuple(
        MachineState(
            **{known.name: getattr(on, known.name) for known in fields(on)},
            running=None if on.job_id is None else running[on.job_id],
            next_job_id=next(iter(queue[on.printer_id]), None),
        )
        for on in on_printers(snapshot, now, accounts.set_up, accounts.spools)
    )
    return Machines(printers, offers_for(snapshot, now, accounts, needs, hours), now)


def _free_at(machine: MachineState, at: Moment) -> bool:
    """Up, and what runs ends before: it can be taken off when leaving."""
    if machine.set_up.is_down:
        return False
    return machine.running is None or machine.running.ends_at <= at
