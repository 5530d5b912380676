"""What left each spool: the feeds of prints, dated over their from-to, and draws outside a print."""

from dataclasses import dataclass, field
from datetime import timedelta

from buildlog.facts.printing import Feed, Job
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.stock import SpoolEntry
from buildlog.methods.balance import Entry
from buildlog.terms import JobState, Moment, SpoolEntryKind, moment, when

SCALE_KINDS = (SpoolEntryKind.WEIGHED, SpoolEntryKind.EMPTIED)


@dataclass(slots=True)
class SpoolFacts:
    """All that happened to one spool up to a moment, unsorted. A draw is (from, mg below 0, to or None)."""

    entries: list[SpoolEntry] = field(default_factory=list)
    readings: list[SpoolEntry] = field(default_factory=list)
    draws: list[Entry] = field(default_factory=list)
    running: list[Entry] = field(default_factory=list)


def facts_by_spool(snapshot: Snapshot, now: Moment) -> dict[int, SpoolFacts]:
    """One pass over entries and feeds. Facts that lie after ``now`` are left out; a running feed is planned to draw
    evenly until the end that its estimate tells (approximation: heads do not draw evenly).
    """
    facts = {spool.id: SpoolFacts() for spool in snapshot.spools}
    for entry in snapshot.spool_entries:
        if entry.at > now:
            continue
        of = facts[entry.spool_id]
        if entry.kind in SCALE_KINDS:
            of.readings.append(entry)
        elif entry.kind is SpoolEntryKind.DRAWN:
            of.draws.append(Entry(entry.at, -(entry.net_mg or 0)))
        else:
            of.entries.append(entry)
    jobs = {job.id: job for job in snapshot.jobs}
    for feed in snapshot.feeds:
        if feed.spool_id is None or feed.from_at is None or feed.from_at > now:
            continue
        draw = _draw(feed, jobs[feed.job_id])
        of = facts[feed.spool_id]
        of.draws.append(draw)
        if draw.until is not None and draw.until > now:
            of.running.append(draw)
    return facts


def _draw(feed: Feed, job: Job) -> Entry:
    """Typed or measured grams win over the estimate."""
    amount = feed.real_mg if feed.real_mg is not None else feed.part_mg + feed.support_mg + feed.purge_mg
    start = feed.from_at or job.queued_at
    return Entry(start, -amount, feed.to_at or job.ended_at or planned_end(job, start))


def planned_end(job: Job, start: Moment) -> Moment:
    """When a running print ends by its estimate; one that does not run ends where it began."""
    if job.state is not JobState.RUNNING or job.started_at is None:
        return start
    return max(start, moment(when(job.started_at) + timedelta(minutes=job.estimate_minutes)))
