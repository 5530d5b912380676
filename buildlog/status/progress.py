"""How far every position is: three lengths, ready, shown."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.status.blockers import Blockers
from buildlog.status.filling import Filling
from buildlog.status.fits import Fits
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.needs_order import Group, groups_of_builds
from buildlog.status.slot import ALLOTTED, FILLED, Slot
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
    hours_beneath_minutes: float


@frozen
class MirrorRow:
    """An assembly in tree order: its positions left and right, or in the middle where it has no side, summed."""

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


@frozen
class Progress:
    by_position: dict[int, PositionProgress]
    mirrors: dict[int, tuple[MirrorRow, ...]]

    def mirror(self, build_id: int) -> tuple[MirrorRow, ...]:
        """Every assembly of a build in tree order; empty for a build without a tree."""
        return self.mirrors.get(build_id, ())


def measure_progress(
    snapshot: Snapshot, needs: Needs, work: WorkDone, fits: Fits, hours: Hours, blockers: Blockers
) -> Progress:
    """Every live position, from the bottom up, and the rows of Mirror of each build."""
    minutes = hours.estimated_minutes
    filling = Filling(snapshot)
    of_build = groups_of_builds(snapshot, by_rank=False)
    sums: dict[int, list[int]] = {}
    for groups in of_build.values():
        for group in reversed(groups):
            for position in group.positions:
                total = _own(needs.by_position.get(position.id, ()), minutes, filling)
                if (done := work.by_position.get(position.id)) is not None:
                    total[_WORKED], total[_WORKED + 1] = done.done_minutes, done.total_minutes
                states = fits.by_position.get(position.id, ())
                total[_PASSED], total[_PASSED + 1] = sum(state.verdict.holds for state in states), len(states)
                for child in blockers.children.get(position.id, ()):
                    total = [a + b for a, b in zip(total, sums[child], strict=True)]
                sums[position.id] = total
    by_position = {position_id: _told(position_id, total, blockers) for position_id, total in sums.items()}
    mirrors = {build_id: tuple(_rows(groups, by_position, fits)) for build_id, groups in of_build.items()}
    return Progress(by_position, mirrors)


# places in a sum: shown, slots, filled, stood in, held, printed and its total, worked and its total, passed and tests
_PRINTED, _WORKED, _PASSED = 5, 7, 9


def _own(slots: Iterable[Slot], minutes: dict[tuple[int, Side], int], filling: Filling) -> list[int]:
    shown = count = filled = stood_in = held = printed = total = 0
    for slot in slots:
        count += 1
        each = minutes.get((slot.part, slot.side), 0)
        total += each
        if slot.holds is FILLED or slot.holds is ALLOTTED:
            printed += each
            filled += filling.is_filled(slot)
        stood_in += slot.stood_in is not None
        held += slot.held
        shown += filling.holds_something(slot)
    return [shown, count, filled, stood_in, held, printed, total, 0, 0, 0, 0]


def _told(position_id: int, total: list[int], blockers: Blockers) -> PositionProgress:
    shown, slots, *rest = total
    own = len(blockers.leaves.get(position_id, ()))
    beneath, minutes = blockers.beneath.get(position_id, 0), blockers.minutes_beneath.get(position_id, 0)
    ready = blockers.is_ready(position_id)
    return PositionProgress._make((position_id, ready, shown == slots, slots, *rest, own, beneath, minutes))


def _rows(groups: list[Group], by_position: dict[int, PositionProgress], fits: Fits) -> Iterator[MirrorRow]:
    """One row per assembly, where its first group stands in the tree."""
    by_assembly: defaultdict[int, list[Group]] = defaultdict(list)
    for group in groups:
        by_assembly[group.assembly.id].append(group)
    for assembly_id, alike in by_assembly.items():
        assembly = alike[0].assembly
        left, right, middle = (
            tuple(p.id for group in alike for p in group.positions if p.side is side) for side in Side
        )
        yield MirrorRow(
            assembly_id,
            alike[0].depth,
            _summed([by_position[i] for i in left]),
            _summed([by_position[i] for i in right]),
            _summed([by_position[i] for i in middle]),
            left,
            right,
            middle,
            assembly.lead_side,
            fits.held_assembly_sides.get(assembly_id),
        )


def _summed(several: list[PositionProgress]) -> PositionProgress | None:
    if len(several) < 2:
        return several[0] if several else None
    figures = [sum(column) for column in zip(*(progress[3:] for progress in several), strict=True)]
    return PositionProgress(
        several[0].position_id, all(p.ready for p in several), all(p.shown for p in several), *figures
    )
