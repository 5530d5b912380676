"""Finds the print that a wish is about, and keeps two prints from overlapping on a printer."""

from datetime import timedelta

from sqlmodel import col

from buildlog.errors import BadWish, NotFound, Refused
from buildlog.record.actions.moments import local
from buildlog.record.tables.printing import Job, Printer
from buildlog.record.writer import Work
from buildlog.terms import JobState, Moment, moment, when

NEVER = "9"  # sorts after every moment


def label(job: Job, begins: bool = False) -> str:
    """How a print is named in a sentence, or where the sentence ``begins`` with it."""
    return f"{'Print' if begins else 'print'} {job.id} «{job.name}»"


def job_of(work: Work, job_id: int) -> Job:
    job = work.first(Job, id=job_id)
    if job is None:
        raise NotFound("print", str(job_id))
    return job


def in_state(work: Work, job_id: int, *states: JobState) -> Job:
    """The print of that number, which must be in one of these states."""
    job = job_of(work, job_id)
    if job.state not in states:
        raise Refused(
            f"{label(job)} is {job.state}, not {' or '.join(states)}: nothing was changed. Name another print."
        )
    return job


def running_job(work: Work, job_id: int | None, printer_code: str | None) -> Job:
    """The running print that is meant; with neither number nor printer the only one that runs."""
    if job_id is not None:
        return in_state(work, job_id, JobState.RUNNING)
    wanted = [col(Job.state) == JobState.RUNNING]
    where = ""
    if printer_code is not None:
        printer = work.by_code(Printer, printer_code)
        wanted.append(col(Job.printer_id) == printer.id)
        where = f" on {printer.code}"
    found = work.all(Job, *wanted)
    if not found:
        raise Refused(f"No print is running{where}: start one first, with the time when it began.")
    if len(found) > 1:
        raise BadWish((("printer", f"several are running: {', '.join(map(label, found))}; name one"),))
    return found[0]


def job_at(work: Work, printer: Printer, at: Moment) -> Job:
    """The print that ran on the printer at that moment, also when it has ended since."""
    for job in work.all(Job, col(Job.started_at) <= at, printer_id=printer.id):
        if at < (job.ended_at or NEVER):
            return job
    raise Refused(f"{printer.code} ran no print {local(work, at)}: name another time or printer.")


def due_at(job: Job) -> Moment:
    """When a started print should end by its estimate."""
    assert job.started_at is not None
    return moment(when(Moment(job.started_at)) + timedelta(minutes=job.estimate_minutes))


def refuse_overlap(work: Work, printer: Printer, start: str, end: str | None, job_id: int | None) -> None:
    """Refuse a print from start to end (None: still running) that overlaps another one there, naming it."""
    for other in work.all(Job, col(Job.started_at).is_not(None), printer_id=printer.id):
        assert other.started_at is not None
        overlaps = start < (other.ended_at or NEVER) and other.started_at < (end or NEVER)
        if other.id == job_id or not overlaps:
            continue
        since = local(work, other.started_at)
        if other.ended_at is None:
            raise Refused(
                f"{printer.code} runs {label(other)} since {since}: finish it first, at the time when it ended."
            )
        said = f"{printer.code} ran {label(other)} from {since} to {local(work, other.ended_at)}"
        if other.started_at > start and end is None:
            raise Refused(f"{said}: say when the one before it ended, by then at the latest.")
        raise Refused(f"{said}: two prints cannot overlap. Choose another time, or correct that one.")
