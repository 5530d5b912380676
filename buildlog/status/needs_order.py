"""The order in which slots are served: build rank, then level by level from the root, sides together."""

from collections import defaultdict
from collections.abc import Iterable
from typing import NamedTuple

from buildlog.facts.builds import Build
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.facts.tree import Assembly, Position
from buildlog.terms import Side


class Group(NamedTuple):
    """Positions of one assembly whose way from the root is alike but for the side, left before right."""

    assembly: Assembly
    positions: tuple[Position, ...]
    depth: int


_SIDES = {Side.LEFT: 0, Side.RIGHT: 1, Side.NONE: 2}


def builds_in_order(snapshot: Snapshot) -> list[Build]:
    """Live builds, a lower rank number first, no rank last."""
    return sorted((b for b in snapshot.builds if b.retired_at is None), key=lambda b: (*_ranked(b.rank), b.id))


def _ranked(rank: int | None) -> tuple[bool, int]:
    return (rank is None, rank or 0)


def _in_tree(assembly: Assembly) -> tuple[bool, int, int, int]:
    return (*_ranked(assembly.rank), assembly.tree_order, assembly.id)


def groups_of_builds(snapshot: Snapshot, by_rank: bool = True) -> dict[int, list[Group]]:
    """By build, every group of positions, each before those below it: children in order of (assembly rank, tree
    position, ordinal), or by tree position alone.
    """
    live = (a for a in snapshot.assemblies if a.retired_at is None)
    key = _in_tree if by_rank else (lambda a: (a.tree_order, a.id))
    children = grouped(sorted(live, key=key), lambda a: a.parent_id)
    under: dict[int | None, dict[int, list[Position]]] = {}
    for position in snapshot.positions:
        if position.retired_at is None:
            under.setdefault(position.parent_id, defaultdict(list))[position.assembly_id].append(position)
    found: dict[int, list[Group]] = {}
    for root in children.get(None, ()):
        tops = under.get(None, {}).get(root.id, [])
        _descend(root, tops, 0, children, under, found.setdefault(root.build_id, []))
    return found


def _descend(
    assembly: Assembly,
    positions: Iterable[Position],
    depth: int,
    children: dict[int | None, list[Assembly]],
    under: dict[int | None, dict[int, list[Position]]],
    found: list[Group],
) -> None:
    group = Group(assembly, tuple(sorted(positions, key=lambda p: (_SIDES[p.side], p.id))), depth)
    found.append(group)
    for child in children.get(assembly.id, ()):
        by_ordinal: defaultdict[int, list[Position]] = defaultdict(list)
        for parent in group.positions:
            for position in under.get(parent.id, {}).get(child.id, ()):
                by_ordinal[position.ordinal].append(position)
        for ordinal in sorted(by_ordinal):
            _descend(child, by_ordinal[ordinal], depth + 1, children, under, found)
