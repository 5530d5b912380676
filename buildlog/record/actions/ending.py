"""What the end of a print writes: real hours, and the grams of its feeds."""

from buildlog.errors import BadWish
from buildlog.record.actions.feeds import heads_of, settle
from buildlog.record.actions.moments import local
from buildlog.record.tables.printing import Job
from buildlog.record.writer import Work
from buildlog.terms import FigureOrigin, JobState, Moment, minutes_between
from buildlog.wording import hours


def end_job(work: Work, job: Job, state: JobState, at: Moment, minutes: int, minutes_from: FigureOrigin) -> None:
    """Typed hours must lie between start and end; an estimate is kept as it is."""
    span = minutes_between(Moment(job.started_at or at), at)
    if minutes_from is not FigureOrigin.ESTIMATE and minutes > span + 1:
        raise BadWish((("real_time", f"{hours(minutes)} do not fit between start and end ({hours(span)})"),))
    work.change(job, state=state, ended_at=at, real_minutes=minutes, real_from=minutes_from)


def typed_grams(first: int | None, second: int | None) -> dict[int, int]:
    """Typed milligrams by place of the head among those that the print uses."""
    return {place: mg for place, mg in enumerate((first, second)) if mg is not None}


def laid_minutes(job: Job, ended: Moment, was_told: bool) -> tuple[int, Moment, FigureOrigin]:
    """How long a failed print laid down filament, until when, and whether somebody said so.

    Up to the moment it stopped, and on to the end where filament kept running.
    """
    until = Moment(ended if job.filament_ran_on or job.stopped_at is None else job.stopped_at)
    origin = FigureOrigin.TYPED if was_told else FigureOrigin.ESTIMATE
    return minutes_between(Moment(job.started_at or until), until), until, origin


def close_feeds(
    work: Work,
    job: Job,
    until: Moment,
    typed: dict[int, int],
    origin: FigureOrigin,
    share: tuple[int, int] = (1, 1),
) -> None:
    """End what still feeds, and give every head its real grams: typed, or that share of the estimate."""
    heads = heads_of(work, job)
    swapped = max(feed.from_at or "" for feeds in heads.values() for feed in feeds)
    if swapped > (job.ended_at or ""):
        later = f"its spool was swapped {local(work, swapped)}, after that: end it later, or undo that swap first"
        raise BadWish((("at", later),))
    if typed and max(typed) >= len(heads):
        raise BadWish((("grams_2", "this print draws from one head only"),))
    for place, feeds in enumerate(heads.values()):
        for feed in feeds:
            if feed.to_at is None or feed.to_at > until:
                work.change(feed, to_at=max(until, Moment(feed.from_at or until)))
        settle(work, feeds, typed.get(place), origin, share)
