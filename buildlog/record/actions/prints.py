"""Queues, starts, ends, cancels and corrects prints."""

from dataclasses import fields

from buildlog.errors import BadWish, Refused
from buildlog.proposals.prints import (
    CancelPrint,
    CorrectPrint,
    FailPrint,
    FinishPrint,
    MovePrint,
    PrintRan,
    QueuePrint,
    Restarted,
    StartPrint,
    SwapSpool,
)
from buildlog.proposals.to_print import ToPrint
from buildlog.record.actions import correcting
from buildlog.record.actions.ending import close_feeds, end_job, laid_minutes, typed_grams
from buildlog.record.actions.feeds import feed_from_head, heads_of, refuse_spool_busy, split
from buildlog.record.actions.jobs import in_state, job_at, label, refuse_overlap, running_job
from buildlog.record.actions.making import counted, flip_lines, lines_of, make_pieces
from buildlog.record.actions.moments import local, refuse_disorder, refuse_future
from buildlog.record.actions.plans import add_job, plan_of
from buildlog.record.actions.set_up import load, refuse_down
from buildlog.record.actions.starting import (
    job_to_start,
    refuse_class,
    refuse_mismatch,
    refuse_other_material,
    spools_for,
)
from buildlog.record.tables.printing import Feed, Job, Printer
from buildlog.record.tables.stock import Spool
from buildlog.record.writer import Work
from buildlog.terms import FigureOrigin, Grade, JobState, Purpose
from buildlog.wording import count, hours


def queue_print(wish: QueuePrint, work: Work) -> str:
    plan = plan_of(wish, work)
    printer = work.by_code(Printer, wish.printer) if wish.printer else None
    if printer is not None:
        refuse_class(work, plan.file_id, printer)
    jobs = [add_job(work, plan, Purpose(wish.purpose), printer, wish.rank) for _ in range(wish.times)]
    return f"Queued {', '.join(map(label, jobs))}."


def start_print(wish: StartPrint, work: Work) -> str:
    job, said = _begin(wish, work)
    if wish.ended is not None:
        said += " " + finish_print(FinishPrint(job=job.id), Work(work.session, wish.ended, work.recorded_at))
    return said


def print_ran(wish: PrintRan, work: Work) -> str:
    start = {field.name: getattr(wish, field.name) for field in fields(ToPrint)}
    job, said = _begin(
        StartPrint(
            **start, job=wish.job, printer=wish.printer, spools=wish.spools, ended=wish.ended, anyway=wish.anyway
        ),
        work,
    )
    then = Work(work.session, wish.ended, work.recorded_at)
    if wish.came_out == JobState.FINISHED:
        ends = FinishPrint(job=job.id, outcomes=wish.outcomes, cause=wish.cause)
        return f"{said} {finish_print(ends, then)}"
    fails = FailPrint(job=job.id, outcomes=wish.outcomes, cause=wish.cause, went_wrong=wish.went_wrong)
    return f"{said} {fail_print(fails, then)}"


def _begin(wish: StartPrint, work: Work) -> tuple[Job, str]:
    """The print on its printer, not ended yet, with what is to be said of it."""
    refuse_future(work, wish.ended)
    job, printer = job_to_start(wish, work)
    refuse_disorder(work, ("at", "started", work.at), ("ended", "ended", wish.ended))
    refuse_overlap(work, printer, work.at, wish.ended, job.id)
    refuse_down(work, printer, work.at)
    if not wish.anyway:
        refuse_mismatch(wish, work, job, printer)
    spools = spools_for(wish, work, job, printer)
    beside = []
    for head, spool in spools.items():
        beside += [f"{spool.code} {what}" for what in load(work, printer, head, spool, work.at)]
        (feed,) = heads_of(work, job)[head]
        work.change(feed, spool_id=spool.id, from_at=work.at)
    work.change(
        job,
        printer_id=printer.id,
        state=JobState.RUNNING,
        started_at=work.at,
        unattended=wish.unattended,
    )
    said = f"{printer.code} prints {label(job)}."
    return job, said + (f" {'; '.join(beside)}." if beside else "")


def finish_print(wish: FinishPrint, work: Work) -> str:
    job = running_job(work, wish.job, wish.printer)
    refuse_disorder(work, ("", "started", job.started_at), ("at", "ended", work.at))
    lines = lines_of(work, job)
    counts = counted(work, lines, wish.outcomes, Grade.GOOD)
    if wish.other_side:
        flip_lines(work, lines)
    origin = FigureOrigin(wish.figures_from)
    minutes, minutes_from = (
        (job.estimate_minutes, FigureOrigin.ESTIMATE) if wish.real_time is None else (wish.real_time, origin)
    )
    end_job(work, job, JobState.FINISHED, work.at, minutes, minutes_from)
    close_feeds(work, job, work.at, typed_grams(wish.grams, wish.grams_2), origin)
    made = make_pieces(work, job, counts, work.at, wish.cause)
    scrap = sum(count[None] for count in counts.values())
    return f"Finished {label(job)}: {count(made, 'piece')}" + (f", {scrap} scrapped." if scrap else ".")


def fail_print(wish: FailPrint, work: Work) -> str:
    job = running_job(work, wish.job, wish.printer)
    stopped = wish.stopped or work.at
    refuse_disorder(
        work,
        ("", "started", job.started_at),
        ("went_wrong", "went wrong", wish.went_wrong),
        ("stopped", "stopped", stopped),
        ("at", "ended", work.at),
    )
    counts = counted(work, lines_of(work, job), wish.outcomes, None)
    work.change(
        job,
        went_wrong_at=wish.went_wrong,
        stopped_at=stopped,
        filament_ran_on=wish.ran_on,
        cause=wish.cause,
    )
    laid, laid_until, laid_from = laid_minutes(job, work.at, wish.stopped is not None)
    origin = FigureOrigin(wish.figures_from)
    if wish.real_time is not None:
        end_job(work, job, JobState.FAILED, work.at, wish.real_time, origin)
    else:
        end_job(work, job, JobState.FAILED, work.at, laid, laid_from)
    share = (min(laid, job.estimate_minutes), max(1, job.estimate_minutes))
    close_feeds(work, job, laid_until, typed_grams(wish.grams, wish.grams_2), origin, share)
    kept = make_pieces(work, job, counts, work.at, wish.cause)
    scrap = sum(each[None] for each in counts.values())
    of_use = (f", {count(kept, 'piece')} kept" if kept else "") + (f", {scrap} scrapped" if scrap else "")
    return f"{label(job, begins=True)} failed after {hours(laid)}{of_use}."


def cancel_print(wish: CancelPrint, work: Work) -> str:
    job = in_state(work, wish.job, JobState.QUEUED)
    work.change(job, state=JobState.CANCELLED)
    return f"Cancelled {label(job)}."


def restarted(wish: Restarted, work: Work) -> str:
    job = running_job(work, wish.job, wish.printer)
    refuse_disorder(work, ("", "started", job.started_at), ("at", "restarted", work.at))
    work.change(job, restarts=job.restarts + 1)
    return f"Restarted {label(job)}: {count(job.restarts, 'time')} now."


def swap_spool(wish: SwapSpool, work: Work) -> str:
    spool = work.by_code(Spool, wish.spool)
    if wish.printer is not None:
        printer = work.by_code(Printer, wish.printer)
        job = job_at(work, printer, work.at)
    else:
        job = running_job(work, None, None)
        printer = work.get(Printer, job.printer_id)
    feed = feed_from_head(work, printer, wish.head, work.at)
    if feed is None or feed.job_id != job.id or feed.from_at == work.at:
        raise Refused(f"{label(job)} draws nothing from head {wish.head} then: name another head or time.")
    if feed.spool_id == spool.id:
        raise BadWish((("spool", f"{spool.code} is on that head already"),))
    if not wish.anyway:
        refuse_other_material(wish, work, feed, spool)
    refuse_spool_busy(work, spool, work.at, feed.to_at, None)
    old = work.get(Spool, feed.spool_id)
    _refuse_later_swap(work, job, feed)
    split(work, feed, work.at, spool, wish.grams)
    load(work, printer, wish.head, spool, work.at)
    return f"{label(job, begins=True)} goes on with {spool.code} in place of {old.code}."


def _refuse_later_swap(work: Work, job: Job, feed: Feed) -> None:
    """The set-up after this moment would name another spool than the print draws from."""
    later = work.first(Feed, job_id=job.id, head=feed.head, from_at=feed.to_at)
    if feed.to_at is not None and later is not None:
        raise Refused(
            f"The spool of {label(job)} was swapped again {local(work, feed.to_at)}: take that back first, "
            "then tell the two swaps in their order."
        )


def correct_print(wish: CorrectPrint, work: Work) -> str:
    job = in_state(work, wish.job, JobState.FINISHED, JobState.FAILED)
    refuse_future(work, wish.started, wish.ended, wish.stopped, wish.went_wrong)
    said = correcting.what_is_said(wish, job)
    if wish.ended_as not in (None, job.state):
        wish = correcting.correct_ending(wish, work, job)
    correcting.correct_times(wish, work, job)
    correcting.correct_figures(wish, work, job)
    correcting.correct_pieces(wish, work, job)
    return f"Corrected {label(job)}: {said}."


def move_print(wish: MovePrint, work: Work) -> str:
    job = in_state(work, wish.job, JobState.QUEUED)
    if wish.rank is None and wish.printer is None:
        raise BadWish((("rank", "name a rank or a printer"),))
    if wish.printer is not None:
        printer = work.by_code(Printer, wish.printer)
        refuse_class(work, job.print_file_id, printer)
        work.change(job, printer_id=printer.id)
    if wish.rank is not None:
        work.change(job, rank=wish.rank)
    return f"Moved {label(job)}."
