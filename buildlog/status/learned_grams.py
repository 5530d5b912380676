"""What weigh-ins teach about grams: really drawn ÷ estimated, per material."""

import math
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from buildlog.facts.printing import Feed
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.stock import SpoolEntry
from buildlog.terms import JobState, Moment, SpoolEntryKind

LEAST_ESTIMATE_MG = 20_000
"""Below 20 g between two weigh-ins the scale tells nothing (its ± is 2 g on either side)."""


@dataclass(frozen=True, slots=True)
class GramsLearned:
    """Real ÷ estimated grams of a material, from ``intervals`` between two weigh-ins; ``usual`` below five."""

    material_id: int
    ratio: float
    intervals: int
    usual: bool


def learn_grams(snapshot: Snapshot, now: Moment) -> dict[int, GramsLearned]:
    """The mean log ratio of a material's intervals, shrunk to 1 with the usual weight of ten."""
    logs: defaultdict[int, list[float]] = defaultdict(list)
    weighed: defaultdict[int, list[SpoolEntry]] = defaultdict(list)
    drawn: defaultdict[int, list[SpoolEntry]] = defaultdict(list)
    for entry in snapshot.spool_entries:
        if entry.kind is SpoolEntryKind.WEIGHED:
            if entry.at <= now:
                weighed[entry.spool_id].append(entry)
        elif entry.kind is SpoolEntryKind.DRAWN:
            drawn[entry.spool_id].append(entry)
    feeds: dict[int | None, list[Feed]] = {spool_id: [] for spool_id, entries in weighed.items() if len(entries) > 1}
    if not feeds:
        return {}
    for feed in snapshot.feeds:
        if feed.from_at and (of_spool := feeds.get(feed.spool_id)) is not None:
            of_spool.append(feed)
    finished = {job.id for job in snapshot.jobs if job.state is JobState.FINISHED}
    material_of = {spool.id: spool.material_id for spool in snapshot.spools}
    for spool_id, entries in weighed.items():
        ratios = _ratios(entries, feeds.get(spool_id, []), drawn.get(spool_id, []), finished)
        logs[material_of[spool_id]].extend(math.log(ratio) for ratio in ratios)
    weight = snapshot.reference.usual["prior_weight_ratio_prints_count"].value
    enough = snapshot.reference.usual["own_facts_replace_usual_count"].value
    return {
        material_id: GramsLearned(
            material_id, math.exp(sum(found) / (len(found) + weight)), len(found), len(found) < enough
        )
        for material_id, found in logs.items()
        if found
    }


def _ratios(
    weighed: list[SpoolEntry], feeds: list[Feed], drawn: list[SpoolEntry], finished: set[int]
) -> Iterator[float]:
    """One ratio for each pair of weigh-ins that lie outside every feed, with only finished prints between them.

    The tare cancels out. What was drawn outside a print is taken off.
    """
    in_order = sorted(weighed, key=lambda e: e.at)  # facts come in order of id
    by_start = sorted(feeds, key=lambda f: f.from_at or "")
    starts = [feed.from_at or "" for feed in by_start]
    end = bisect_left(starts, in_order[0].at)
    for first, last in pairwise(in_order):
        begin, end = end, bisect_left(starts, last.at, end)
        estimated = 0
        for feed in by_start[begin:end]:
            if feed.to_at is None or feed.to_at > last.at or feed.job_id not in finished:
                break
            estimated += feed.part_mg + feed.support_mg + feed.purge_mg
        else:
            if estimated < LEAST_ESTIMATE_MG:
                continue
            if begin and (by_start[begin - 1].to_at or "9") > first.at:  # a spool feeds one head at a time
                continue
            elsewhere = sum(e.net_mg or 0 for e in drawn if first.at < e.at <= last.at) if drawn else 0
            real = (first.gross_mg or 0) - (last.gross_mg or 0) - elsewhere
            if real > 0:
                yield real / estimated
