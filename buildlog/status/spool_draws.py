"""What left each spool: the feeds of prints, dated over their from-to, and draws outside a print."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from operator import attrgetter

from buildlog.facts.printing import Job
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
    """One pass over entries and one over feeds; of all spools, or some. Facts after ``now`` are left out.

    Unless ``whole``, draws before the last but one reading are left out too. A running feed is planned to draw evenly
    until the end that its estimate tells (approximation: heads do not draw evenly).
    """
    facts = {spool_id: SpoolFacts() for spool_id in (only or (spool.id for spool in snapshot.spools))}
    drawn: list[SpoolEntry] = []
    for entry in snapshot.spool_entries:
        of = facts.get(entry.spool_id)
        if of is None or entry.at > now:
            continue
        if entry.kind in SCALE_KINDS:
            of.readings.append(entry)
        elif entry.kind is SpoolEntryKind.DRAWN:
            drawn.append(entry)
        else:
            of.handled.append(entry)
    for of in facts.values():
        of.readings.sort(key=_AT)  # facts come in order of id, and equal moments keep it
        if not whole and len(of.readings) > 1:
            of.settled_at = of.readings[-2].at
    for entry in drawn:
        _draw(facts[entry.spool_id], entry.at, entry.net_mg or 0, None)
    _feeds(snapshot, now, facts)
    return facts


_AT = attrgetter("at")


def _feeds(snapshot: Snapshot, now: Moment, facts: dict[int, SpoolFacts]) -> None:
    """Typed or measured grams win over the estimate."""
    for feed in snapshot.feeds:
        start = feed.from_at
        if start is None or start > now or feed.spool_id is None or (of := facts.get(feed.spool_id)) is None:
            continue
        end = feed.to_at
        if end is None:
            job = snapshot.job[feed.job_id]
            end = job.ended_at or planned_end(job, start)
        elif end <= of.settled_at:
            if start < of.first_draw_at:
                of.first_draw_at = start
            continue
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
