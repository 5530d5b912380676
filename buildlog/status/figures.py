"""Figures to say in front of the camera: of this episode, and since the start."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from buildlog.facts.frozen import frozen
from buildlog.facts.printing import JobLine
from buildlog.facts.snapshot import Snapshot
from buildlog.status.cost import ran_minutes
from buildlog.terms import Grade, JobState, LotOrigin, Moment, Purpose

Window = tuple[Moment | None, Moment]
BuildId = int | None


@frozen
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


@frozen
class BuildFigures:
    build_id: int
    episode: Said
    all_time: Said


@frozen
class Figures:
    """``by_build``; what was printed for no build (bare trials) is in none of them."""

    by_build: dict[int, BuildFigures]


def figures_to_say(snapshot: Snapshot, now: Moment) -> Figures:
    """Per build since its last filming moment (none yet: since the start) and since the start, up to ``now``."""
    windows: dict[BuildId, Sequence[Window]] = {
        build.id: ((last_filming(snapshot, build.id, now), now), (None, now)) for build in snapshot.builds
    }
    sums = figures_in(snapshot, windows)
    return Figures({build.id: BuildFigures(build.id, *sums[build.id]) for build in snapshot.builds})


def last_filming(snapshot: Snapshot, build_id: int, now: Moment) -> Moment | None:
    """The last filming moment of a build that has passed."""
    films = (e.films_at for e in snapshot.episodes if e.build_id == build_id and e.retired_at is None)
    return max((at for at in films if at <= now), default=None)


def figures_in(snapshot: Snapshot, windows: Mapping[BuildId, Sequence[Window]]) -> dict[BuildId, tuple[Said, ...]]:
    """The figures of each build in each of its windows (after since, up to until).

    A print for parts of several builds counts for each as one print; its minutes and grams are shared by pieces.
    """
    sums = {build_id: [[0.0] * 5 for _ in of] for build_id, of in windows.items()}
    for build_id, at, amounts in _events(snapshot, max((u for of in windows.values() for _, u in of), default=None)):
        for index, (since, until) in enumerate(windows.get(build_id, ())):
            if at <= until and (since is None or at > since):
                into = sums[build_id][index]
                for place, amount in amounts:
                    into[place] += amount
    return {
        build_id: tuple(
            Said(since, until, *(round(value) for value in found))
            for (since, until), found in zip(of, sums[build_id], strict=True)
        )
        for build_id, of in windows.items()
    }


MINUTES, MG, PIECES, FAILURES, PRINTS = range(5)
Event = tuple[BuildId, Moment, tuple[tuple[int, float], ...]]


def _events(snapshot: Snapshot, until: Moment | None) -> Iterator[Event]:
    """Prints that ended and pieces that were made: the build, when, and amounts by place in Said."""
    if until is None:
        return
    drawn: defaultdict[int, int] = defaultdict(int)
    for feed in snapshot.feeds:
        drawn[feed.job_id] += feed.part_mg + feed.support_mg + feed.purge_mg if feed.real_mg is None else feed.real_mg
    build_of = {part.id: part.build_id for part in snapshot.parts}
    lines_of = snapshot.lines_of_job
    for job in snapshot.jobs:
        if job.ended_at is None or job.ended_at > until:
            continue
        failed = job.state is JobState.FAILED
        if not failed and job.state is not JobState.FINISHED:
            continue
        shares = _shares(lines_of.get(job.id, ()), build_of)
        minutes, mg = ran_minutes(job, until), drawn[job.id]
        for build_id, share in shares.items():
            yield build_id, job.ended_at, (
                (MINUTES, minutes * share), (MG, mg * share), (FAILURES, failed), (PRINTS, 1)
            )  # fmt: skip
    for lot in snapshot.lots:
        made = lot.origin is LotOrigin.PRINT or lot.origin is LotOrigin.MADE
        if made and lot.grade is not Grade.SALVAGE and lot.made_at <= until:
            yield build_of[lot.part_id], lot.made_at, ((PIECES, lot.quantity),)


def _shares(lines: Sequence[JobLine], build_of: dict[int, int]) -> dict[BuildId, float]:
    """The share of a print that each build has, by pieces; for no build where it lays down no part."""
    counts: dict[BuildId, int] = {}
    for line in lines:
        if line.part_id is not None and line.purpose is not Purpose.OTHER:
            build_id = build_of[line.part_id]
            counts[build_id] = counts.get(build_id, 0) + line.quantity
    if len(counts) == 1:
        return dict.fromkeys(counts, 1.0)
    whole = sum(counts.values())
    return {build_id: count / whole for build_id, count in counts.items()} if whole else {None: 1.0}
