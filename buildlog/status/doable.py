"""What can be done now: work for a person, with all that it takes on hand."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.blocker import BlockerKind, Thing
from buildlog.status.blockers import Blockers
from buildlog.status.fits import Fits
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class Doable:
    """``helps`` = Σ over the positions that contain the blocker of 1 ÷ leaf blockers left there. ``kind`` is None for
    a goal in free words and a spot check. ``goal``: it serves a goal of a running episode. ``caution_key`` names a
    caution of the reference data, "" where there is none. ``position_id`` is the first place where it helps.
    """

    about: Thing
    text: str
    position_id: int | None
    kind: BlockerKind | None
    minutes: int
    helps: float
    goal: bool
    needs_two: bool
    helper_can: bool
    caution_key: str


def what_can_be_done(snapshot: Snapshot, now: Moment, fits: Fits, blockers: Blockers) -> tuple[Doable, ...]:
    """Goals of the running episodes first, then by what helps most per minute (at least 5)."""
    raise NotImplementedError
