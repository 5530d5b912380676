"""What left each spool: the feeds of prints, dated over their from-to, and draws outside a print."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from operator import attrgetter

from buildlog.facts.printing import Feed, Job
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.stock import SpoolEntry
from buildlog.methods.balance import Entry
from buildlog.terms import JobState, Moment, SpoolEntryKind, later

SCALE_KINDS = (SpoolEntryKind.WEIGHED, SpoolEntryKind.EMPTIED)
BEFORE_ALL = Moment("")
AFTER_ALL = Moment("9")


@dataclass(slots=True)
class SpoolFacts:
    """All that happened to one spool up to a moment. ``draws`` are (from, mg below 0, to or None), without those that
    end at or before ``settled_at``: a reading stands for them. ``running`` draws end later than the moment.
    """

    readings: list[SpoolEntry] = field(default_factory=list)
    handled: list[SpoolEntry] = field(default_factory=list)
    draws: list[Entry] = field(default_factory=list)
    running: list[Entry] = field(default_factory=list)
    settled_at: Moment = BEFORE_ALL
    first_draw_at: Moment = AFTER_ALL


def facts_by_spool(
    snapshot: Snapshot, now: Moment, only: Iterable[int] | None = None, whole: bool = False
) -> dict[int, SpoolFacts]:
    """Of all spools, or some. Facts after ``now`` are left out.

    Unless ``whole``, draws before the last but one reading are left out too. A running feed is planned to draw evenly
    until the end that its estimate tells (approximation: heads do not draw evenly).
    """
    spool_ids = only or [spool.id for spool in snapshot.spools]
    return {spool_id: _facts_of(snapshot, spool_id, now, whole) for spool_id in spool_ids}


def _facts_of(snapshot: Snapshot, spool_id: int, now: Moment, whole: bool) -> SpoolFacts:
    of = SpoolFacts()
    readings = of.readings
    drawn: list[SpoolEntry] = []
    for entry in snapshot.entries_of_spool.get(spool_id, ()):
        if entry.at > now:
            continue
        if entry.kind in SCALE_KINDS:
            readings.append(entry)
        elif entry.kind is SpoolEntryKind.DRAWN:
            drawn.append(entry)
        else:
            of.handled.append(entry)
    readings.sort(key=_AT)  # facts come in order of id, and equal moments keep it
    if not whole and len(readings) > 1:
        of.settled_at = readings[-2].at
    for entry in drawn:
        _draw(of, entry.at, entry.net_mg or 0, None)
    for feed in snapshot.feeds_of_spool.get(spool_id, ()):
        start, end = feed.from_at, feed.to_at
        if start is None or start > now:
            continue
        if end is None or end > of.settled_at:
            _feed(snapshot, feed, start, now, of)
        elif start < of.first_draw_at:
            of.first_draw_at = start
    return of


_AT = attrgetter("at")


def _feed(snapshot: Snapshot, feed: Feed, start: Moment, now: Moment, of: SpoolFacts) -> None:
    """Typed or measured grams win over the estimate."""
    end = feed.to_at
    if end is None:
        job = snapshot.job[feed.job_id]
        end = job.ended_at or planned_end(job, start)
    mg = feed.real_mg if feed.real_mg is not None else feed.part_mg + feed.support_mg + feed.purge_mg
    _draw(of, start, mg, end)
    if end > now:
        of.running.append(Entry(start, -mg, end))


def _draw(of: SpoolFacts, start: Moment, mg: int, end: Moment | None) -> None:
    if start < of.first_draw_at:
        of.first_draw_at = start
    if (end or start) > of.settled_at:
        of.draws.append(Entry(start, -mg, end))


def planned_end(job: Job, start: Moment) -> Moment:
    """When a running print ends by its estimate; one that does not run ends where it began."""
    if job.state is not JobState.RUNNING or job.started_at is None:
        return start
    return max(start, later(job.started_at, job.estimate_minutes))
