"""Prints that should be over, or have begun, by now: one that runs past its end, and what would have followed it."""

from collections.abc import Set
from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.day_rhythm import when_up
from buildlog.status.hours import Hours
from buildlog.terms import Moment, later

HANDOVER_MINUTES = 15
"""Our choice: so long after the end of a print the next one is started, by day."""


@dataclass(frozen=True, slots=True)
class PrintDue:
    """``queued`` is one that nobody has told to have begun; it may still run now (``ends_at`` lies ahead)."""

    job_id: int
    printer_id: int
    starts_at: Moment
    ends_at: Moment
    queued: bool


def prints_due(
    snapshot: Snapshot, now: Moment, accounts: Accounts, hours: Hours, since: Moment, settled: Set[int] = frozenset()
) -> tuple[PrintDue, ...]:
    """By printer, each in the order in which it prints.

    A queue goes on where a print runs past its end, or has ended ``since``: on a printer that stood still before,
    nothing is taken to have begun. Prints that are ``settled`` neither end nor begin.
    """
    found, free_at = _past_their_end(snapshot, now, accounts, hours, since, settled)
    for queued in hours.queued:
        able = [printer_id for printer_id in queued.printer_ids if printer_id in free_at]
        if not able or queued.job_id in settled:
            continue
        printer_id = min(able, key=lambda one: free_at[one])
        ready = later(free_at[printer_id], HANDOVER_MINUTES)
        start = when_up(max(ready, snapshot.job[queued.job_id].queued_at), snapshot.settings)
        if start < now:
            end = later(start, queued.minutes)
            found.append(PrintDue(queued.job_id, printer_id, start, end, True))
            free_at[printer_id] = end
    return tuple(sorted(found, key=lambda due: (due.printer_id, due.starts_at, due.job_id)))


def _past_their_end(
    snapshot: Snapshot, now: Moment, accounts: Accounts, hours: Hours, since: Moment, settled: Set[int]
) -> tuple[list[PrintDue], dict[int, Moment]]:
    """Prints that run past their end, and since when each printer that goes on is free."""
    last_end: dict[int, Moment] = {}
    for job in snapshot.jobs:
        if job.printer_id is not None and job.ended_at is not None and since <= job.ended_at <= now:
            last_end[job.printer_id] = max(job.ended_at, last_end.get(job.printer_id, job.ended_at))
    down = {printer_id for printer_id, set_up in accounts.set_up.items() if set_up.is_down}
    free_at = {printer_id: end for printer_id, end in last_end.items() if printer_id not in down}
    found = []
    for running in hours.running:
        if running.printer_id is None:
            continue
        free_at.pop(running.printer_id, None)
        if running.past_end and running.job_id not in settled:
            started = snapshot.job[running.job_id].started_at or running.ends_at
            found.append(PrintDue(running.job_id, running.printer_id, started, running.ends_at, False))
            if running.printer_id not in down:
                free_at[running.printer_id] = running.ends_at
    return found, free_at
