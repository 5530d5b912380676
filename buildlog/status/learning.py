"""What the prints so far have taught: hours, failures, grams, pace."""

from collections.abc import Iterable, Iterator
from dataclasses import field
from functools import cached_property

from buildlog.facts.frozen import frozen_with_late_answers
from buildlog.facts.printing import Job
from buildlog.facts.reference_data import Reference
from buildlog.facts.snapshot import Snapshot
from buildlog.methods import learned
from buildlog.methods.learned import Learned, PrintObservation, Prior, Tally
from buildlog.methods.pace import Pace
from buildlog.status.kept import Kept
from buildlog.status.learned_grams import GramsLearned, learn_grams
from buildlog.status.print_pace import measure_pace
from buildlog.terms import FigureOrigin, JobState, Moment, minutes_between

__all__ = ["GramsLearned", "Learning", "Polymers", "learn", "polymers_of_jobs"]

Polymers = tuple[str, ...]
EARLY_MINUTES = 60
"""A failure within the first hour counts as a failed start."""


@frozen_with_late_answers
class Learning:
    """``cell`` gives the learned figures; ``grams`` has a row per material that was weighed between prints;
    ``polymers`` are those of each job that has feeds. The ``pace`` is measured when it is first asked for.
    """

    tally: Tally
    grams: dict[int, GramsLearned]
    polymers: dict[int, Polymers]
    snapshot: Snapshot
    now: Moment
    _cells: dict[tuple[int | None, Polymers, str], Learned] = field(default_factory=dict, compare=False)

    @cached_property
    def pace(self) -> Pace:
        return measure_pace(self.snapshot, self.now)

    def cell(self, printer_id: int | None, polymers: Iterable[str], estimate_from: str = "") -> Learned:
        """The figures of a printer with the polymers of a print, for estimates from one program.

        Without a printer, or for a pair never seen, those of all together.
        """
        of = tuple(sorted(set(polymers)))
        key = (printer_id, of, estimate_from)
        if key not in self._cells:
            prior = _prior(self.snapshot.reference, of)
            self._cells[key] = learned.learn(self.tally, (printer_id, of), estimate_from, prior)
        return self._cells[key]

    def grams_ratio(self, material_id: int | None) -> float:
        """Real ÷ estimated grams, 1 where nothing was learned."""
        known = self.grams.get(material_id) if material_id is not None else None
        return known.ratio if known else 1.0


def learn(snapshot: Snapshot, now: Moment, kept: Kept | None = None) -> Learning:
    """From the prints that have ended by ``now``; real figures taken from the estimate teach nothing."""
    kept = kept or Kept(snapshot, now)
    polymers = kept.ask("polymers", ("materials", "feeds"), (), lambda: polymers_of_jobs(snapshot))
    tally = kept.ask("tally", ("jobs",), (polymers,), lambda: learned.tally(_observations(snapshot, now, polymers)))
    grams = learn_grams(snapshot, now, kept)
    grams = kept.ask("grams", (), (grams,), lambda: grams)
    return Learning(tally, grams, polymers, snapshot, now)


def polymers_of_jobs(snapshot: Snapshot) -> dict[int, Polymers]:
    """The polymers of each job that has feeds, in alphabetical order."""
    polymer_of = {material.id: material.polymer for material in snapshot.materials}
    alone = {polymer: (polymer,) for polymer in polymer_of.values()}
    found: dict[int, Polymers] = {}
    for feed in snapshot.feeds:
        polymer = feed.polymer if feed.material_id is None else polymer_of[feed.material_id]
        if not polymer:
            continue
        only = alone.get(polymer) or (polymer,)
        before = found.setdefault(feed.job_id, only)
        if before is not only and polymer not in before:
            found[feed.job_id] = tuple(sorted((*before, polymer)))
    return found


def _observations(snapshot: Snapshot, now: Moment, polymers: dict[int, Polymers]) -> Iterator[PrintObservation]:
    lost_hours = snapshot.reference.usual["failed_start_loss_minutes"].value / 60
    for job in snapshot.jobs:
        if job.ended_at is None or job.ended_at > now or job.state not in _TEACH:
            continue
        cell = (job.printer_id, polymers.get(job.id, ()))
        estimated = job.estimate_minutes / 60
        if job.restarts:  # nobody times a first layer that comes off: the usual loss
            bad_start = PrintObservation(cell, job.estimate_from, estimated, None, lost_hours, failed_early=True)
            yield from [bad_start] * job.restarts
        yield _observation(job, cell, estimated)


_FINISHED, _FAILED, _ESTIMATE = JobState.FINISHED, JobState.FAILED, FigureOrigin.ESTIMATE
_TEACH = (_FINISHED, _FAILED)


def _observation(job: Job, cell: tuple[int | None, Polymers], estimated: float) -> PrintObservation:
    real = job.real_minutes
    minutes = _ran_minutes(job) if real is None else real
    if job.state is _FAILED:
        early = minutes <= EARLY_MINUTES
        return PrintObservation(cell, job.estimate_from, estimated, None, minutes / 60, early, not early)
    measured = real and job.real_from is not _ESTIMATE and job.estimate_minutes > 0
    real_hours = real / 60 if measured and real else None
    return PrintObservation(cell, job.estimate_from, estimated, real_hours, minutes / 60)


def _ran_minutes(job: Job) -> int:
    """How long the machine ran where nobody told: until laying down stopped, else the estimate."""
    stopped = job.stopped_at or job.ended_at
    if job.started_at is None or stopped is None:
        return job.estimate_minutes
    return max(0, minutes_between(job.started_at, stopped))


def _prior(reference: Reference, polymers: Polymers) -> Prior:
    """What is usual for this class: two polymers, a styrene-bearing one, or tuned small parts."""
    known = reference.polymers
    styrene = any(polymer in known and known[polymer].styrene_bearing for polymer in polymers)
    key = "first_two_material" if len(polymers) > 1 else "large_styrene" if styrene else "tuned_small"
    usual = reference.usual
    return Prior(
        failed_share_of_class=reference.print_classes[key].failed_share.value,
        failures_per_hour=usual["failures_per_hour"].value,
        ratio=usual["real_over_estimated_hours"].value,
        bad_start_loss_hours=usual["failed_start_loss_minutes"].value / 60,
    )
