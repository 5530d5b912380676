"""Prints and printers to catch up with."""

from collections.abc import Iterator, Set
from typing import Any

from buildlog.proposals.printers import PrinterDown, PrinterUp
from buildlog.proposals.prints import FailPrint, FinishPrint, PrintRan, StartPrint
from buildlog.status.blocker import Thing
from buildlog.status.due import Asking, Due, DueKind, Reply, in_words
from buildlog.status.on_printers import job_name
from buildlog.status.print_chains import PrintDue, prints_due
from buildlog.status.status import Status
from buildlog.terms import JobState, Moment

BEGAN, ENDED = "began", "ended"
FAILURE = ("cause", "went_wrong", "outcomes", "stopped", "ran_on", "grams")
ENDING = ("outcomes", "cause", "real_time", "grams", "grams_2", "figures_from", "other_side")
RAN = ("ended", "came_out", "outcomes", "cause", "went_wrong", "spools", "anyway")
WENT_WRONG = ("cause", "went_wrong", "outcomes", "ended", "spools", "anyway")
STARTED = ("printer", "spools", "unattended", "ended", "anyway")


def due_prints(status: Status, since: Moment, settled: Set[str]) -> Iterator[Due]:
    ids = frozenset(int(key.removeprefix("print:")) for key in settled if key.startswith("print:"))
    for due in prints_due(status, since, ids):
        yield _begun(status, due) if due.queued else _running(status, due)


def due_printers(status: Status) -> Iterator[Due]:
    """Printers that should be up again."""
    for printer in status.snapshot.printers:
        set_up = status.accounts.set_up[printer.id]
        until = set_up.down_until
        if printer.retired_at is not None or until is None or until > status.now:
            continue
        still = Asking(PrinterDown, {"printer": printer.code, "why": set_up.why}, ("until", "why"))
        up = Asking(PrinterUp, {"printer": printer.code}, (), until)
        yield Due(
            key=f"printer:{printer.id}",
            kind=DueKind.PRINTER,
            about=Thing("printer", printer.id, printer.code),
            where=printer.code,
            what=f"down{f': {set_up.why}' if set_up.why else ''}",
            told=f"up again {in_words(status, until)}",
            due_at=until,
            as_planned=Reply("up since then", up),
            failed=Reply("still down: until when", still),
            not_done=Reply("still down: until when", still),
            whole=up,
        )


def _running(status: Status, due: PrintDue) -> Due:
    """One that is on the record as running; its end is reckoned with the learned ratio."""
    job = {"job": due.job_id}
    return _due(
        status,
        due,
        f"ended {in_words(status, due.ends_at)}",
        due.ends_at,
        planned=Reply("all pieces good", Asking(FinishPrint, job, (), due.ends_at, ENDED)),
        failed=Reply("failed: when, what is left", Asking(FailPrint, job, FAILURE, due.ends_at, ENDED)),
        not_done="still runs",
        whole=Asking(FinishPrint, job, ENDING, due.ends_at, ENDED),
    )


def _begun(status: Status, due: PrintDue) -> Due:
    """One from the queue that would have followed; it may still run."""
    values: dict[str, Any] = {"job": due.job_id, "printer": status.snapshot.printer[due.printer_id].code}
    over = due.ends_at <= status.now
    ended = {"ended": due.ends_at if over else status.now}
    began, ends = in_words(status, due.starts_at), in_words(status, due.ends_at, due.starts_at)
    start = Asking(StartPrint, values | (ended if over else {}), (), due.starts_at, BEGAN)
    fail = values | ended | {"came_out": JobState.FAILED.value}
    return _due(
        status,
        due,
        f"began {began}, {'ended' if over else 'runs until'} {ends}",
        due.starts_at,
        planned=Reply("all pieces good" if over else "began, runs", start),
        failed=Reply("failed: when, what is left", Asking(PrintRan, fail, WENT_WRONG, due.starts_at, BEGAN)),
        not_done="never began",
        whole=Asking(PrintRan, values | ended, RAN, due.starts_at, BEGAN)
        if over
        else Asking(StartPrint, values, STARTED, due.starts_at, BEGAN),
    )


def _due(
    status: Status,
    due: PrintDue,
    told: str,
    at: Moment,
    *,
    planned: Reply,
    failed: Reply,
    not_done: str,
    whole: Asking,
) -> Due:
    name = job_name(status.snapshot, status.snapshot.job[due.job_id])
    return Due(
        key=f"print:{due.job_id}",
        kind=DueKind.PRINT,
        about=Thing("print", due.job_id, name),
        where=status.snapshot.printer[due.printer_id].code,
        what=name,
        told=told,
        due_at=at,
        as_planned=planned,
        failed=failed,
        not_done=Reply(not_done),
        whole=whole,
    )
