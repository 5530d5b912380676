"""Figures to say in front of the camera: of this episode, and since the start."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.cost import ran_minutes
from buildlog.terms import Grade, JobState, LotOrigin, Moment, Purpose


@dataclass(frozen=True, slots=True)
class Said:
    """After ``since`` up to ``until``. A print counts whole where it ended; pieces are good ones and seconds, printed
    or made by hand; grams are those drawn by prints. ``prints`` are all that ended, failed ones too.
    """

    since: Moment | None
    until: Moment
    print_minutes: int
    drawn_mg: int
    pieces: int
    failures: int
    prints: int


@dataclass(frozen=True, slots=True)
class BuildFigures:
    build_id: int
    episode: Said
    all_time: Said


@dataclass(frozen=True, slots=True)
class Figures:
    """``by_build``, and ``all_builds`` from the start over everything that was printed (trials for no build too)."""

    by_build: dict[int, BuildFigures]
    all_builds: Said


@dataclass(frozen=True, slots=True)
class _Event:
    """A print that ended or pieces that were made, with the share of it that a build bears."""

    at: Moment
    minutes: float = 0.0
    mg: float = 0.0
    pieces: float = 0.0
    failures: float = 0.0
    prints: float = 0.0


def figures_to_say(snapshot: Snapshot, now: Moment) -> Figures:
    """Per build since its last filming moment (none yet: since the start) and since the start, up to ``now``."""
    events = events_by_build(snapshot, now)
    everything = [event for found in events.values() for event in found]
    return Figures(
        {
            build.id: BuildFigures(
                build.id,
                said(events[build.id], last_filming(snapshot, build.id, now), now),
                said(events[build.id], None, now),
            )
            for build in snapshot.builds
        },
        said(everything, None, now),
    )


def last_filming(snapshot: Snapshot, build_id: int, now: Moment) -> Moment | None:
    """The last filming moment of a build that has passed."""
    films = (e.films_at for e in snapshot.episodes if e.build_id == build_id and e.retired_at is None)
    return max((at for at in films if at <= now), default=None)


def said(events: Iterable[_Event], since: Moment | None, until: Moment) -> Said:
    """The sums of what lies after ``since`` up to ``until``."""
    inside = [event for event in events if (since is None or event.at > since) and event.at <= until]
    return Said(
        since,
        until,
        print_minutes=round(sum(event.minutes for event in inside)),
        drawn_mg=round(sum(event.mg for event in inside)),
        pieces=round(sum(event.pieces for event in inside)),
        failures=round(sum(event.failures for event in inside)),
        prints=round(sum(event.prints for event in inside)),
    )


def events_by_build(snapshot: Snapshot, now: Moment) -> defaultdict[int | None, list[_Event]]:
    """Prints that ended and pieces made, by build. A print for parts of several builds counts for each as one print;
    its minutes and grams are shared by pieces. One that lays down no part counts for no build.
    """
    events: defaultdict[int | None, list[_Event]] = defaultdict(list)
    drawn: defaultdict[int, int] = defaultdict(int)
    for feed in snapshot.feeds:
        estimate = feed.part_mg + feed.support_mg + feed.purge_mg
        drawn[feed.job_id] += estimate if feed.real_mg is None else feed.real_mg
    build_of = {part.id: part.build_id for part in snapshot.parts}
    for job in snapshot.jobs:
        if job.ended_at is None or job.ended_at > now or job.state not in (JobState.FINISHED, JobState.FAILED):
            continue
        shares: defaultdict[int | None, int] = defaultdict(int)
        for line in snapshot.lines_of_job.get(job.id, ()):
            if line.part_id is not None and line.purpose is not Purpose.OTHER:
                shares[build_of[line.part_id]] += line.quantity
        whole = sum(shares.values())
        minutes, failed = ran_minutes(job, now), float(job.state is JobState.FAILED)
        for build_id, pieces in shares.items() if whole else ((None, 1),):
            share = pieces / whole if whole else 1.0
            events[build_id].append(
                _Event(job.ended_at, minutes * share, drawn[job.id] * share, failures=failed, prints=1.0)
            )
    for lot in snapshot.lots:
        made = lot.origin in (LotOrigin.PRINT, LotOrigin.MADE) and lot.grade is not Grade.SALVAGE
        if made and lot.made_at <= now:
            events[build_of[lot.part_id]].append(_Event(lot.made_at, pieces=lot.quantity))
    return events
