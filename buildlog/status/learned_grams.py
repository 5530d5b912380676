"""What weigh-ins teach about grams: really drawn ÷ estimated, per material."""

import math
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Callable, Iterator
from itertools import pairwise
from operator import attrgetter

from buildlog.facts.frozen import frozen
from buildlog.facts.printing import Feed
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.facts.stock import SpoolEntry
from buildlog.status.kept import Kept
from buildlog.terms import JobState, Moment, SpoolEntryKind

Weighed = tuple[list[SpoolEntry], list[Feed], list[SpoolEntry]]
"""Weigh-ins of a spool, its feeds, and what was drawn from it outside a print."""

LEAST_ESTIMATE_MG = 20_000
"""Below 20 g between two weigh-ins the scale tells nothing (its ± is 2 g on either side)."""


@frozen
class GramsLearned:
    """Real ÷ estimated grams of a material, from ``intervals`` between two weigh-ins; ``usual`` below five."""

    material_id: int
    ratio: float
    intervals: int
    usual: bool


def learn_grams(snapshot: Snapshot, now: Moment, kept: Kept) -> dict[int, GramsLearned]:
    """The mean log ratio of a material's intervals, shrunk to 1 with the usual weight of ten."""
    weighed = kept.ask("weighed", ("spool_entries", "feeds"), (), lambda: _weighed(snapshot, now))
    finished = kept.ask("finished", ("jobs",), (), lambda: _finished(snapshot)) if weighed else frozenset()
    ratios = kept.ask_each("ratios", (), (finished,), weighed, lambda _, one: tuple(_ratios(*one, finished)))
    logs: defaultdict[int, list[float]] = defaultdict(list)
    for spool in snapshot.spools:
        logs[spool.material_id].extend(map(math.log, ratios.get(spool.id, ())))
    weight = snapshot.reference.usual["prior_weight_ratio_prints_count"].value
    enough = snapshot.reference.usual["own_facts_replace_usual_count"].value
    return {
        material_id: GramsLearned(
            material_id, math.exp(sum(found) / (len(found) + weight)), len(found), len(found) < enough
        )
        for material_id, found in logs.items()
        if found
    }


def _weighed(snapshot: Snapshot, now: Moment) -> dict[int, Weighed]:
    """Spools weighed twice or more."""
    found: dict[int, Weighed] = {}
    for spool_id, entries in snapshot.entries_of_spool.items():
        of_kind = grouped(entries, _KIND)
        weighings = [entry for entry in of_kind.get(SpoolEntryKind.WEIGHED, ()) if entry.at <= now]
        if len(weighings) > 1:
            feeds = snapshot.feeds_of_spool.get(spool_id, [])
            found[spool_id] = weighings, feeds, of_kind.get(SpoolEntryKind.DRAWN, [])
    return found


_KIND: Callable[[SpoolEntry], SpoolEntryKind] = attrgetter("kind")


def _finished(snapshot: Snapshot) -> frozenset[int]:
    return frozenset(job.id for job in snapshot.jobs_of_state.get(JobState.FINISHED, ()))


def _ratios(
    weighed: list[SpoolEntry], feeds: list[Feed], drawn: list[SpoolEntry], finished: frozenset[int]
) -> Iterator[float]:
    """One ratio for each pair of weigh-ins that lie outside every feed, with only finished prints between them.

    The tare cancels out. What was drawn outside a print is taken off.
    """
    in_order = sorted(weighed, key=attrgetter("at"))  # facts come in order of id
    by_start = sorted((feed for feed in feeds if feed.from_at), key=attrgetter("from_at"))
    starts = [feed.from_at or "" for feed in by_start]
    end = bisect_left(starts, in_order[0].at)
    for first, last in pairwise(in_order):
        begin, end = end, bisect_left(starts, last.at, end)
        if begin == end:
            continue
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
