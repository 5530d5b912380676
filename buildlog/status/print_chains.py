"""Prints that should be over, or have begun, by now: one that runs past its end, and what would have followed it."""

from collections.abc import Iterable, Iterator, Set

from buildlog.facts.frozen import frozen
from buildlog.status.day_rhythm import when_up
from buildlog.status.status import Status
from buildlog.terms import Moment, later

HANDOVER_MINUTES = 15
"""Our choice: so long after the end of a print the next one is started, by day."""


@frozen
class PrintDue:
    """``queued`` is one that nobody has told to have begun; it may still run now (``ends_at`` lies ahead)."""

    job_id: int
    printer_id: int
    starts_at: Moment
    ends_at: Moment
    queued: bool


def prints_due(status: Status, since: Moment, settled: Set[int] = frozenset()) -> tuple[PrintDue, ...]:
    """By printer, each in the order in which it prints.

    A queue goes on where a print runs past its end and where a printer is free, from ``since`` on. Prints that are
    ``settled`` neither end nor begin.
    """
    found = [due for due in past_their_end(status) if due.job_id not in settled]
    taken = {running.printer_id for running in status.hours.running}
    free_at = _free_since(status, since, taken) | {due.printer_id: max(due.ends_at, since) for due in found}
    return _in_order([*found, *_followers(status, free_at, settled)])


def sure_to_be_due(status: Status) -> tuple[PrintDue, ...]:
    """Only prints that run past their end, and what would have followed them."""
    found = past_their_end(status)
    free_at = {due.printer_id: due.ends_at for due in found}
    return _in_order([*found, *_followers(status, free_at, frozenset())])


def past_their_end(status: Status) -> list[PrintDue]:
    return [
        PrintDue(
            running.job_id,
            running.printer_id,
            status.snapshot.job[running.job_id].started_at or running.ends_at,
            running.ends_at,
            False,
        )
        for running in status.hours.running
        if running.past_end and running.printer_id is not None
    ]


def _free_since(status: Status, since: Moment, taken: Set[int | None]) -> dict[int, Moment]:
    """Printers on which nothing runs, with the moment from which on they could take the next print."""
    free = {p.id: since for p in status.snapshot.printers if p.id not in taken and p.retired_at is None}
    for job in status.snapshot.jobs:
        if job.ended_at is not None and job.printer_id in free and job.ended_at <= status.now:
            free[job.printer_id] = max(free[job.printer_id], job.ended_at)
    return free


def _followers(status: Status, free_at: dict[int, Moment], settled: Set[int]) -> Iterator[PrintDue]:
    """What waits in the queue and would have begun by now: on a printer loaded for it, the first that was free."""
    snapshot, now = status.snapshot, status.now
    down = {printer_id for printer_id, set_up in status.accounts.set_up.items() if set_up.is_down}
    free = {printer_id: at for printer_id, at in free_at.items() if printer_id not in down}
    for queued in status.hours.queued:
        able = [printer_id for printer_id in queued.printer_ids if printer_id in free]
        if not able or queued.job_id in settled:
            continue
        printer_id = min(able, key=lambda one: (not _is_loaded(status, one, queued.job_id), free[one], one))
        ready = later(free[printer_id], HANDOVER_MINUTES)
        start = when_up(max(ready, snapshot.job[queued.job_id].queued_at), snapshot.settings)
        if start < now:
            free[printer_id] = later(start, queued.minutes)
            yield PrintDue(queued.job_id, printer_id, start, free[printer_id], True)


def _is_loaded(status: Status, printer_id: int, job_id: int) -> bool:
    """Whether what is loaded now is what the print asks for on each of its heads."""
    spools = status.accounts.set_up[printer_id].loaded
    for feed in status.snapshot.feeds_of_job.get(job_id, ()):
        spool = status.accounts.spools.get(spools.get(feed.head, 0))
        if spool is None:
            return False
        material = status.snapshot.material[spool.material_id]
        if feed.material_id not in (None, material.id) or (feed.polymer or material.polymer) != material.polymer:
            return False
    return True


def _in_order(found: Iterable[PrintDue]) -> tuple[PrintDue, ...]:
    return tuple(sorted(found, key=lambda due: (due.printer_id, due.starts_at, due.job_id)))
