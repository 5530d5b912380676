"""How far every position is: three lengths, ready, shown."""

from dataclasses import dataclass
from typing import NamedTuple

from buildlog.facts.snapshot import Snapshot
from buildlog.status.blockers import Blockers
from buildlog.status.fits import Fits
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.work import WorkDone
from buildlog.terms import Side


class PositionProgress(NamedTuple):
    """A position with all below it. ``printed``: print minutes of slots filled or allotted, ``worked``: step minutes
    done, ``passed``: fits; stand-ins fill none of them. ``filled`` counts slots filled, ``held`` those that wait for
    the lead side; ``slots`` are all. ``shown``: every slot holds something.

    Several positions summed carry the id of the first.
    """

    position_id: int
    ready: bool
    shown: bool
    slots: int
    filled: int
    stood_in: int
    held: int
    printed_minutes: int
    printed_total: int
    worked_minutes: int
    worked_total: int
    passed: int
    tests: int
    blockers_own: int
    blockers_beneath: int
    hours_beneath_minutes: int


@dataclass(frozen=True, slots=True)
class MirrorRow:
    """An assembly in tree order: its positions left and right, or in the middle where it has no side.

    ``position_ids`` are those of left, right and middle in this order.
    """

    assembly_id: int
    depth: int
    left: PositionProgress | None
    right: PositionProgress | None
    middle: PositionProgress | None
    left_ids: tuple[int, ...]
    right_ids: tuple[int, ...]
    middle_ids: tuple[int, ...]
    lead_side: Side | None
    held_side: Side | None


@dataclass(frozen=True, slots=True)
class Progress:
    by_position: dict[int, PositionProgress]
    mirrors: dict[int, tuple[MirrorRow, ...]]

    def mirror(self, build_id: int) -> tuple[MirrorRow, ...]:
        """Every assembly of a build in tree order; empty for a build without a tree."""
        return self.mirrors.get(build_id, ())


def measure_progress(
    snapshot: Snapshot, needs: Needs, work: WorkDone, fits: Fits, hours: Hours, blockers: Blockers
) -> Progress:
    raise NotImplementedError
