"""Whether both sides are in step: same parts, same revision, same scale."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.needs import Needs
from buildlog.terms import Side


@dataclass(frozen=True, slots=True)
class PairSides:
    """The left and right position of a paired assembly under ``above_position_id``, or (assembly_id of the position
    itself, left and right the same) the handed parts of a position without a side.

    ``differences`` says each in plain words; a pair with a ``held_side`` is never out of step.
    """

    assembly_id: int
    above_position_id: int
    left_position_id: int
    right_position_id: int
    differences: tuple[str, ...]
    held_side: Side | None

    @property
    def in_step(self) -> bool:
        return not self.differences or self.held_side is not None


@dataclass(frozen=True, slots=True)
class HandedSides:
    """A handed part over its whole build: (needed, usable, revision letters that fill slots) left and right."""

    part_id: int
    left: tuple[int, int, tuple[str, ...]]
    right: tuple[int, int, tuple[str, ...]]
    differences: tuple[str, ...]
    held_side: Side | None

    @property
    def in_step(self) -> bool:
        return not self.differences or self.held_side is not None


@dataclass(frozen=True, slots=True)
class Sides:
    pairs: tuple[PairSides, ...]
    parts: tuple[HandedSides, ...]


def compare_sides(snapshot: Snapshot, needs: Needs) -> Sides:
    """Every paired assembly and handed part of the open builds."""
    raise NotImplementedError
