"""Ways through the tree of a build, and what its counts come to."""

from collections.abc import Iterator

from sqlmodel import col

from buildlog.errors import Refused
from buildlog.record.tables.tree import Assembly, Usage
from buildlog.record.writer import Work
from buildlog.terms import SideRule

MOST_SLOTS = 100_000

_ALL_SLOTS = f"""
    SELECT coalesce(sum(u.quantity * (CASE u.side_rule WHEN '{SideRule.ONE_OF_EACH}' THEN 2 ELSE 1 END)), 0)
    FROM assembly a JOIN usage u ON u.assembly_id = a.id JOIN position p ON p.assembly_id = a.id
    WHERE a.build_id = :build_id AND u.ended_at IS NULL AND p.retired_at IS NULL"""


def way_up(assembly: Assembly, work: Work) -> Iterator[Assembly]:
    """The assembly, its parent, and so on to the root; a loop ends it."""
    seen: set[int | None] = set()
    step: Assembly | None = assembly
    while step is not None and step.id not in seen:
        seen.add(step.id)
        yield step
        step = None if step.parent_id is None else work.get(Assembly, step.parent_id)


def children(assembly: Assembly, work: Work) -> list[Assembly]:
    return work.all(Assembly, parent_id=assembly.id, retired_at=None, order_by=col(Assembly.tree_order))


def subtree(assembly: Assembly, work: Work) -> Iterator[Assembly]:
    """The assembly and all below it."""
    yield assembly
    for child in children(assembly, work):
        yield from subtree(child, work)


def has_sides(assembly: Assembly, work: Work) -> bool:
    return any(above.paired for above in way_up(assembly, work))


def usages_below(assembly: Assembly, work: Work) -> list[Usage]:
    """Standing usages in the assembly and all below it."""
    ids = [below.id for below in subtree(assembly, work)]
    return work.all(Usage, col(Usage.assembly_id).in_(ids), col(Usage.ended_at).is_(None))


def counts_that_multiply(assembly: Assembly, work: Work) -> str:
    """«LEG 3 × 2 sides × TOE 500», leaving out what stands there once."""
    words = []
    for above in reversed(list(way_up(assembly, work))):
        if above.count > 1:
            words.append(f"{above.code} {above.count}")
        if above.paired:
            words.append("2 sides" if above.count > 1 else f"{above.code} 2 sides")
    return " × ".join(words or [f"{assembly.code} 1"])


def refuse_too_many_slots(assembly: Assembly, work: Work, quantity: int = 1) -> None:
    """Refuse more than MOST_SLOTS slots in the build of the assembly that was changed last."""
    found = work.ask(_ALL_SLOTS, build_id=assembly.build_id).scalar_one()
    if found > MOST_SLOTS:
        per_position = f" × {quantity} each" if quantity > 1 else ""
        raise Refused(
            f"{counts_that_multiply(assembly, work)}{per_position} makes {found:,} slots in this build: "
            f"more than {MOST_SLOTS:,} are not kept. Lower one of the counts."
        )
