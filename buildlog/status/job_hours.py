"""Print hours of the jobs that run or wait in the queue."""

from datetime import timedelta

from buildlog.facts.frozen import frozen
from buildlog.facts.printing import Job
from buildlog.facts.snapshot import Snapshot
from buildlog.methods.learned import Learned
from buildlog.methods.print_hours import expected_hours_left, variance_hours_left
from buildlog.status.learning import Learning, Polymers
from buildlog.status.on_printers import running
from buildlog.status.piece_hours import failures_of, reckon
from buildlog.status.printers_that_can import PrintersThatCan
from buildlog.terms import JobState, Moment, minutes_between, moment, when


@frozen
class RunningJob:
    """``ends_at`` is the start plus estimate × learned ratio, a print without failure; ``remaining_minutes`` (0 when
    past its end) lead there, ``expected_minutes`` reckon with failures on the way.
    """

    job_id: int
    printer_id: int | None
    ends_at: Moment
    remaining_minutes: int
    expected_minutes: int
    past_end: bool
    variance: float
    ratio_log_sd: float


@frozen
class QueuedJob:
    """``minutes`` are estimate × learned ratio; ``retries`` as for pieces. In the order of the queue."""

    job_id: int
    printer_ids: tuple[int, ...]
    minutes: int
    expected_minutes: int
    retries: float
    variance: float
    ratio_log_sd: float


def running_jobs(
    snapshot: Snapshot, now: Moment, learning: Learning, polymers: dict[int, Polymers]
) -> tuple[RunningJob, ...]:
    """By end."""
    found = [
        _running(job, now, learning.cell(job.printer_id, polymers.get(job.id, ()), job.estimate_from))
        for job in running(snapshot, now)
    ]
    return tuple(sorted(found, key=lambda job: (job.ends_at, job.job_id)))


def print_ends(started: Moment, estimate_minutes: int, learned: Learned) -> Moment:
    """Start plus estimate × learned ratio: when a print ends that does not fail."""
    return moment(when(started) + timedelta(hours=estimate_minutes * learned.ratio / 60))


def _running(job: Job, now: Moment, learned: Learned) -> RunningJob:
    """Restarts are not dated: a restarted print is reckoned from its first start and ends later than told here."""
    hours = job.estimate_minutes * learned.ratio / 60
    ends_at = print_ends(job.started_at or now, job.estimate_minutes, learned)
    left = max(0, minutes_between(now, ends_at))
    failures = failures_of(learned, hours)
    return RunningJob(
        job_id=job.id,
        printer_id=job.printer_id,
        ends_at=ends_at,
        remaining_minutes=left,
        expected_minutes=round(60 * expected_hours_left(left / 60, hours, failures)),
        past_end=ends_at <= now,
        variance=3600 * variance_hours_left(left / 60, hours, failures),
        ratio_log_sd=learned.ratio_log_sd,
    )


def queued_jobs(
    snapshot: Snapshot, learning: Learning, can: PrintersThatCan, polymers: dict[int, Polymers]
) -> tuple[QueuedJob, ...]:
    """By rank (none comes last), then as queued. A job with no printer named goes on those that can run its file,
    else on any that has the heads.
    """
    files = {file.id: file for file in snapshot.print_files}
    found = []
    for job in sorted(snapshot.jobs_of_state.get(JobState.QUEUED, ()), key=queue_order):
        heads = max((feed.head for feed in snapshot.feeds_of_job.get(job.id, ())), default=1)
        file = files.get(job.print_file_id) if job.print_file_id is not None else None
        able = can.for_file(file, heads).printer_ids if file else can.with_heads(heads)
        printers = (job.printer_id,) if job.printer_id is not None else able
        only = printers[0] if len(printers) == 1 else None
        learned = learning.cell(only, polymers.get(job.id, ()), job.estimate_from)
        reckoned = reckon(job.estimate_minutes, learned)
        found.append(
            QueuedJob(
                job.id,
                printers,
                round(reckoned.minutes),
                round(reckoned.expected_minutes),
                reckoned.retries,
                reckoned.variance,
                learned.ratio_log_sd,
            )
        )
    return tuple(found)


def queue_order(job: Job) -> tuple[bool, int, Moment, int]:
    return (job.rank is None, job.rank or 0, job.queued_at, job.id)
