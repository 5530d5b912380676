"""Where pieces of a part are kept that no one has put into a box: in the default box of their assembly."""

from collections.abc import Iterable, Mapping
from typing import Protocol


class AssemblyRow(Protocol):
    """A row of the record or of a snapshot."""

    @property
    def id(self) -> int | None: ...
    @property
    def parent_id(self) -> int | None: ...
    @property
    def box_id(self) -> int | None: ...


class UsageRow(Protocol):
    @property
    def assembly_id(self) -> int: ...
    @property
    def part_id(self) -> int: ...
    @property
    def ended_at(self) -> str | None: ...


def default_boxes(assemblies: Iterable[AssemblyRow], usages: Iterable[UsageRow]) -> dict[int, int]:
    """Id of the box by part: that of the first assembly that uses it, else of the nearest one above that has one."""
    by_id = {row.id: row for row in assemblies}
    found: dict[int, int] = {}
    for usage in usages:
        if usage.ended_at is None and usage.part_id not in found:
            box_id = _box_above(by_id, usage.assembly_id)
            if box_id is not None:
                found[usage.part_id] = box_id
    return found


def _box_above(by_id: Mapping[int | None, AssemblyRow], assembly_id: int | None) -> int | None:
    while assembly_id is not None and assembly_id in by_id:
        row = by_id[assembly_id]
        if row.box_id is not None:
            return row.box_id
        assembly_id = row.parent_id
    return None
