"""What is on each printer as the record tells it; how long it goes on is reckoned by others."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from buildlog.facts.frozen import frozen
from buildlog.facts.printing import Job
from buildlog.facts.snapshot import Snapshot
from buildlog.status.set_up import SetUpState
from buildlog.status.spool_account import SpoolState
from buildlog.terms import JobState, Moment
from buildlog.wording import day


@frozen
class OnPrinter:
    """A live printer at a moment. ``job_id`` is the print on it since ``since``, None where there is none; ``spools``
    are the loaded ones by head. ``is_free``: up, and nothing is on it.
    """

    printer_id: int
    code: str
    job_id: int | None
    job_name: str
    since: Moment | None
    set_up: SetUpState
    down_text: str
    spools: dict[int, SpoolState]

    @property
    def is_free(self) -> bool:
        return self.job_id is None and not self.set_up.is_down


def on_printers(
    snapshot: Snapshot, now: Moment, set_up: Mapping[int, SetUpState], spools: Mapping[int, SpoolState]
) -> tuple[OnPrinter, ...]:
    """Of the live printers, in order of id."""
    jobs = {job.printer_id: job for job in running(snapshot, now)}
    live = (p for p in snapshot.printers if p.retired_at is None or p.retired_at > now)
    return tuple(_on(snapshot, printer.code, jobs.get(printer.id), set_up[printer.id], spools) for printer in live)


def running(snapshot: Snapshot, now: Moment) -> list[Job]:
    """The prints that run and have begun by ``now``."""
    jobs = snapshot.jobs_of_state.get(JobState.RUNNING, ())
    return [job for job in jobs if job.started_at is not None and job.started_at <= now]


def _on(
    snapshot: Snapshot, code: str, job: Job | None, set_up: SetUpState, spools: Mapping[int, SpoolState]
) -> OnPrinter:
    return OnPrinter(
        printer_id=set_up.printer_id,
        code=code,
        job_id=job.id if job else None,
        job_name=job_name(snapshot, job) if job else "",
        since=job.started_at if job else None,
        set_up=set_up,
        down_text=_down_text(snapshot, set_up),
        spools={head: spools[spool_id] for head, spool_id in sorted(set_up.loaded.items())},
    )


def where_loaded(spools: Mapping[int, SpoolState], set_up: Mapping[int, SetUpState]) -> dict[int, SpoolState]:
    """The spools, each that is loaded with its printer and head."""
    on = {spool_id: (of, head) for of, state in set_up.items() for head, spool_id in state.loaded.items()}
    return dict(spools) | {spool_id: replace(spools[spool_id], loaded_on=place) for spool_id, place in on.items()}


def _down_text(snapshot: Snapshot, set_up: SetUpState) -> str:
    if not set_up.is_down:
        return ""
    until = f" until {day(set_up.down_until, snapshot.settings.home_zone)}" if set_up.down_until else ""
    return f"down{until}{f': {set_up.why}' if set_up.why else ''}"


def job_name(snapshot: Snapshot, job: Job) -> str:
    """Its name, else what it lays down."""
    return job.name or ", ".join(_line_names(snapshot, job)) or f"print {job.id}"


def _line_names(snapshot: Snapshot, job: Job) -> Iterator[str]:
    for line in snapshot.lines_of_job.get(job.id, ()):
        code = snapshot.part[line.part_id].code if line.part_id is not None else line.what
        side = f" {line.side}" if line.side != "-" else ""
        yield f"{code}{side}" + (f" ×{line.quantity}" if line.quantity > 1 else "")
