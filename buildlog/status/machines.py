"""What is on each printer, and what to put on now."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace

from buildlog.facts.frozen import frozen
from buildlog.facts.printing import Job, Printer
from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts, SetUpState, SpoolState
from buildlog.status.hours import Hours, RunningJob
from buildlog.status.needs import Needs
from buildlog.status.offers import Offer, offers_for
from buildlog.status.print_pace import home_zone
from buildlog.terms import Moment, later
from buildlog.wording import day

__all__ = ["MachineState", "Machines", "Offer", "look_at_machines"]

LIKELY = 3


@frozen
class MachineState:
    """``running`` is what it prints now (past its end: ``running.past_end``, it waits to be taken off); ``spools``
    are the loaded ones by head; ``next_job_id`` the first of its queue. ``is_free``: up, and nothing is on it.
    """

    printer_id: int
    code: str
    job_name: str
    running: RunningJob | None
    set_up: SetUpState
    down_text: str
    spools: dict[int, SpoolState]
    next_job_id: int | None

    @property
    def is_free(self) -> bool:
        return self.running is None and not self.set_up.is_down


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
    running = {job.printer_id: job for job in hours.running}
    queue: defaultdict[int, list[int]] = defaultdict(list)
    for queued in hours.queued:
        for printer_id in queued.printer_ids:
            queue[printer_id].append(queued.job_id)
    live = [p for p in snapshot.printers if p.retired_at is None or p.retired_at > now]
    printers = tuple(
        _state(snapshot, accounts, printer, running.get(printer.id), queue[printer.id]) for printer in live
    )
    return Machines(printers, offers_for(snapshot, now, accounts, needs, hours), now)


def _state(
    snapshot: Snapshot,
    accounts: Accounts,
    printer: Printer,
    running: RunningJob | None,
    queue: list[int],
) -> MachineState:
    set_up = accounts.set_up[printer.id]
    return MachineState(
        printer_id=printer.id,
        code=printer.code,
        job_name=job_name(snapshot, snapshot.job[running.job_id]) if running else "",
        running=running,
        set_up=set_up,
        down_text=_down_text(snapshot, set_up),
        spools={head: accounts.spools[spool_id] for head, spool_id in sorted(set_up.loaded.items())},
        next_job_id=queue[0] if queue else None,
    )


def _down_text(snapshot: Snapshot, set_up: SetUpState) -> str:
    if not set_up.is_down:
        return ""
    zone = home_zone(snapshot.settings.home_zone)
    until = f" until {day(set_up.down_until, zone)}" if set_up.down_until else ""
    return f"down{until}{f': {set_up.why}' if set_up.why else ''}"


def job_name(snapshot: Snapshot, job: Job) -> str:
    """Its name, else what it lays down."""
    return job.name or ", ".join(_line_names(snapshot, job)) or f"print {job.id}"


def _line_names(snapshot: Snapshot, job: Job) -> Iterator[str]:
    for line in snapshot.lines_of_job.get(job.id, ()):
        code = snapshot.part[line.part_id].code if line.part_id is not None else line.what
        side = f" {line.side}" if line.side != "-" else ""
        yield f"{code}{side}" + (f" ×{line.quantity}" if line.quantity > 1 else "")


def _free_at(machine: MachineState, at: Moment) -> bool:
    """Up, and what runs ends before: it can be taken off when leaving."""
    if machine.set_up.is_down:
        return False
    return machine.running is None or machine.running.ends_at <= at
