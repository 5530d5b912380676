"""Puts right what was recorded of an ended print: its times, its figures, its pieces."""

from collections import Counter
from dataclasses import replace
from itertools import pairwise

from buildlog.errors import Refused
from buildlog.proposals.field import fields_of
from buildlog.proposals.prints import CorrectPrint
from buildlog.record.actions import feeds as feeding
from buildlog.record.actions.ending import close_feeds, end_job, laid_minutes, typed_grams
from buildlog.record.actions.jobs import label, refuse_overlap
from buildlog.record.actions.making import add_lot, counted, flip_lines, lines_of, next_mark
from buildlog.record.actions.moments import local, refuse_disorder
from buildlog.record.actions.piece_accounts import verify
from buildlog.record.actions.spool_state import refuse_not_there
from buildlog.record.actions.standing import family, refuse_before, refuse_fitted, refuse_unmade
from buildlog.record.tables.pieces import Lot
from buildlog.record.tables.printing import Job, JobLine, Printer
from buildlog.record.tables.stock import Spool
from buildlog.record.tables.tree import Part
from buildlog.record.writer import Work
from buildlog.terms import FigureOrigin, Grade, JobState, Moment, Purpose

_NOT_BY_THEMSELVES = frozenset({"job", "figures_from"})


def what_is_said(wish: CorrectPrint, job: Job) -> str:
    """What is put right, in words; Refused where it is nothing."""
    fields = [field for field in fields_of(CorrectPrint) if field.name not in _NOT_BY_THEMSELVES]
    said = [field.label for field in fields if getattr(wish, field.name) is not field.default]
    if not said:
        what = ", ".join(field.label for field in fields)
        raise Refused(f"Nothing of {label(job)} was said otherwise than it stands. Say at least one of: {what}.")
    return ", ".join(said)


def correct_ending(wish: CorrectPrint, work: Work, job: Job) -> CorrectPrint:
    """A failed print had finished after all, or the other way round: what followed from that goes or comes. Returns
    the wish with what is usual for such a print where it says nothing.
    """
    ended = Moment(job.ended_at or "")
    if wish.ended_as == JobState.FINISHED:
        work.change(
            job, state=JobState.FINISHED, stopped_at=None, went_wrong_at=None, filament_ran_on=False, cause=""
        )
        work.change(job, real_minutes=job.estimate_minutes, real_from=FigureOrigin.ESTIMATE)
    else:
        work.change(job, state=JobState.FAILED, stopped_at=wish.stopped or ended)
    _move_feeds(work, job, Moment(job.started_at or ""), ended)
    return wish if wish.outcomes is not None else replace(wish, outcomes=())


def correct_times(wish: CorrectPrint, work: Work, job: Job) -> None:
    """Start, end, what went wrong and when it stopped; feeds and pieces go along."""
    if not any((wish.started, wish.ended, wish.stopped, wish.went_wrong)):
        return
    was_ended = job.ended_at
    started, ended = Moment(wish.started or job.started_at or ""), Moment(wish.ended or was_ended or "")
    stopped = wish.stopped or (ended if job.stopped_at == was_ended else job.stopped_at)
    wrong = wish.went_wrong or job.went_wrong_at
    refuse_disorder(
        work,
        ("started", "started", started),
        ("went_wrong", "went wrong", wrong),
        ("stopped", "stopped", stopped if job.state is JobState.FAILED else None),
        ("ended", "ended", ended),
    )
    refuse_overlap(work, work.get(Printer, job.printer_id), started, ended, job.id)
    work.change(job, started_at=started, ended_at=ended, went_wrong_at=wrong)
    if job.state is JobState.FAILED:
        work.change(job, stopped_at=stopped)
    _move_feeds(work, job, started, ended)
    for lot in _roots(work, job):
        refuse_before(work, lot, ended)
        for member in family(work, lot):
            if member.made_at == was_ended:
                work.change(member, made_at=ended)


def _move_feeds(work: Work, job: Job, started: Moment, ended: Moment) -> None:
    until = laid_minutes(job, ended, True)[1] if job.state is JobState.FAILED else ended
    for feeds in feeding.heads_of(work, job).values():
        for before, after in pairwise(feeds):
            if not started < (after.from_at or "") <= until:
                raise Refused(
                    f"The spool of {label(job)} was swapped {local(work, after.from_at or '')}: "
                    "start and end must lie on both sides of that."
                )
            work.change(before, to_at=after.from_at)
        work.change(feeds[0], from_at=started, to_at=feeds[0].to_at if feeds[1:] else until)
        work.change(feeds[-1], to_at=until)
        for feed in (feeds[0], feeds[-1]):
            spool = work.get(Spool, feed.spool_id)
            refuse_not_there(work, spool, feed.from_at or started)
            feeding.refuse_spool_busy(work, spool, feed.from_at or started, feed.to_at, feed.id)


def correct_figures(wish: CorrectPrint, work: Work, job: Job) -> None:
    """Hours, grams, restarts, cause; what was computed from the times is computed anew."""
    origin = FigureOrigin(wish.figures_from)
    ended = Moment(job.ended_at or "")
    minutes, minutes_from = job.real_minutes or 0, job.real_from or FigureOrigin.ESTIMATE
    share = (1, 1)
    if job.state is JobState.FAILED:
        laid, _, laid_from = laid_minutes(job, ended, wish.stopped is not None)
        share = (min(laid, job.estimate_minutes), max(1, job.estimate_minutes))
        if wish.stopped is not None or minutes_from is FigureOrigin.ESTIMATE:
            minutes, minutes_from = laid, laid_from
    if wish.real_time is not None:
        minutes, minutes_from = wish.real_time, origin
    end_job(work, job, job.state, ended, minutes, minutes_from)
    close_feeds(work, job, ended, {}, origin, share)
    heads = list(feeding.heads_of(work, job).values())
    for place, mg in typed_grams(wish.grams, wish.grams_2).items():
        if place >= len(heads):
            raise Refused(f"{label(job, begins=True)} draws from one head only: leave the second grams empty.")
        feeding.correct(work, heads[place], mg, origin)
    if wish.restarts is not None:
        work.change(job, restarts=wish.restarts)
    if wish.cause is not None:
        work.change(job, cause=wish.cause)
        for line in lines_of(work, job):
            if line.scrapped:
                work.change(line, cause=wish.cause)


def correct_pieces(wish: CorrectPrint, work: Work, job: Job) -> None:
    """How many came out how, and on which side."""
    lines = lines_of(work, job)
    if wish.outcomes is not None:
        unnamed = Grade.GOOD if job.state is JobState.FINISHED else None
        counts = counted(work, lines, wish.outcomes, unnamed)
        for line in lines:
            grades = counts[line.id or 0]
            cause = (wish.cause or line.cause or job.cause) if grades[None] else ""
            work.change(line, scrapped=grades[None], cause=cause)
            if line.purpose is Purpose.PARTS:
                _adjust_lots(work, line, grades, Moment(job.ended_at or ""))
    if wish.other_side:
        flip_lines(work, lines)
        for lot in _roots(work, job):
            refuse_fitted(work, lot)
            _flip_lots(work, lot)


def _roots(work: Work, job: Job) -> list[Lot]:
    return [lot for line in lines_of(work, job) for lot in _lots_of(work, line)]


def _lots_of(work: Work, line: JobLine) -> list[Lot]:
    """The lots that the print made, before anything was split off."""
    return work.all(Lot, job_line_id=line.id, parent_id=None)


def _adjust_lots(work: Work, line: JobLine, wanted: Counter[Grade | None], made_at: Moment) -> None:
    lots = {lot.grade: lot for lot in _lots_of(work, line)}
    for old in [grade for grade in lots if not wanted[grade]]:
        new = next((g for g in Grade if g not in lots and wanted[g] == lots[old].quantity), None)
        if new is not None:
            lots[new] = lots.pop(old)
            for member in family(work, lots[new]):
                work.change(member, grade=new)
    for grade in Grade:
        lot, pieces = lots.get(grade), wanted[grade]
        if lot is None:
            if pieces:
                add_lot(work, line, grade, pieces, made_at)
            continue
        if pieces:
            work.change(lot, quantity=pieces)
            verify(work, lot)
        else:
            refuse_unmade(work, lot)
            work.delete(lot)


def _flip_lots(work: Work, lot: Lot) -> None:
    for member in family(work, lot):
        part = work.get(Part, member.part_id)
        side = member.side.other
        mark = next_mark(work, part, side) if member.mark else None
        work.change(member, side=side, mark=mark)
