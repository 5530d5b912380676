"""What is on each printer, and what to put on now."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts, SetUpState, SpoolState
from buildlog.status.hours import Hours, RunningJob
from buildlog.status.needs import Needs
from buildlog.status.spool_check import SpoolCheck
from buildlog.status.stock import Stock
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class MachineState:
    """``running`` is what it prints now (past its end: ``running.past_end``, it waits to be taken off); ``spools`` are
    the loaded ones by head; ``next_job_id`` the first of its queue. ``is_free``: up, and nothing runs on it.
    """

    printer_id: int
    code: str
    job_name: str
    running: RunningJob | None
    set_up: SetUpState
    down_text: str
    spools: dict[int, SpoolState]
    next_job_id: int | None
    is_free: bool


@dataclass(frozen=True, slots=True)
class Offer:
    """A ready file that could go on a printer: ``minutes`` without failures, ``lines`` as «FL07 L ×2», ``helps`` how
    many pieces of it are still to get, ``rank`` the earliest slot it serves in allotment order (0 first).
    ``cautions`` are keys of the reference data's cautions.
    """

    printer_id: int
    print_file_id: int
    ends_at: Moment
    minutes: int
    spools: tuple[SpoolCheck, ...]
    spool_text: str
    cautions: tuple[str, ...]
    lines: str
    helps: int
    rank: int


@dataclass(frozen=True, slots=True)
class Machines:
    """``offers`` are all ready files for printers that can, as if started now, in allotment order."""

    printers: tuple[MachineState, ...]
    offers: tuple[Offer, ...]
    now: Moment

    def window(self, leaving_at: Moment, back_at: Moment) -> tuple[Offer, ...]:
        """What to put on a free printer when leaving, so that it ends by the return: longest first for each printer,
        in allotment order where equal. A printer that is taken until after leaving is left out.
        """
        raise NotImplementedError

    def likely(self, printer_id: int) -> tuple[Offer, ...]:
        """The three most likely files to start next on a printer."""
        raise NotImplementedError


def look_at_machines(
    snapshot: Snapshot, now: Moment, accounts: Accounts, needs: Needs, hours: Hours, stock: Stock
) -> Machines:
    raise NotImplementedError
