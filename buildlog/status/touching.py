"""What touches a part, and so may have to change with it: the same fit, a bonded assembly, variants."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from buildlog.terms import Joined

if TYPE_CHECKING:
    from buildlog.facts.snapshot import Snapshot


class Touching(NamedTuple):
    """A part and all the reasons why it touches another."""

    part_id: int
    why: str


def touching(snapshot: Snapshot, part_id: int) -> tuple[Touching, ...]:
    """Parts in use that touch this one, by code; the rest of its matched set is not among them."""
    why: dict[int, list[str]] = {}
    for other, reason in (*_by_fit(snapshot, part_id), *_by_bond(snapshot, part_id), *_by_scale(snapshot, part_id)):
        why.setdefault(other, []).append(reason)
    apart = {part_id, *rest_of_set(snapshot, part_id)}
    found = [other for other in why if other not in apart and _in_use(snapshot, other)]
    found.sort(key=lambda other: snapshot.part[other].code)
    return tuple(Touching(other, ", ".join(dict.fromkeys(why[other]))) for other in found)


def rest_of_set(snapshot: Snapshot, part_id: int) -> tuple[int, ...]:
    """The other parts of its matched set, which changes whole or not at all."""
    part = snapshot.part[part_id]
    return tuple(
        other.id
        for other in snapshot.parts
        if part.matched_set
        and other.id != part_id
        and (other.build_id, other.matched_set) == (part.build_id, part.matched_set)
        and _in_use(snapshot, other.id)
    )


def bonded_in(snapshot: Snapshot, part_id: int) -> tuple[str, ...]:
    """Codes of the bonded assemblies in whose slots for this part a piece stands now."""
    usages = {usage.id: usage.assembly_id for usage in snapshot.usages if usage.part_id == part_id}
    standing = {f.usage_id for f in snapshot.fittings if f.until_at is None and not f.stand_in}
    homes = (snapshot.assembly[home] for usage_id, home in usages.items() if usage_id in standing)
    return tuple(dict.fromkeys(home.code for home in homes if home.joined is Joined.BONDED))


def _in_use(snapshot: Snapshot, part_id: int) -> bool:
    part = snapshot.part[part_id]
    return part.retired_at is None and part.superseded_by_id is None


def _by_fit(snapshot: Snapshot, part_id: int) -> Iterator[tuple[int, str]]:
    part_of = {usage.id: usage.part_id for usage in snapshot.usages if usage.ended_at is None}
    tests = {test.id: test.code for test in snapshot.fit_tests if test.retired_at is None}
    links = [
        (link.fit_test_id, part_of[link.usage_id]) for link in snapshot.fit_test_usages if link.usage_id in part_of
    ]
    mine = {test_id for test_id, part in links if part == part_id}
    yield from ((part, f"fit {tests[test_id]}") for test_id, part in links if test_id in mine & tests.keys())


def _by_bond(snapshot: Snapshot, part_id: int) -> Iterator[tuple[int, str]]:
    live = [usage for usage in snapshot.usages if usage.ended_at is None]
    homes = {usage.assembly_id for usage in live if usage.part_id == part_id}
    bonded = {home for home in homes if snapshot.assembly[home].joined is Joined.BONDED}
    for usage in live:
        if usage.assembly_id in bonded:
            yield usage.part_id, f"bonded in {snapshot.assembly[usage.assembly_id].code}"


def _by_scale(snapshot: Snapshot, part_id: int) -> Iterator[tuple[int, str]]:
    """What it is scaled from, and what is scaled from it or from the same."""
    origin = snapshot.part[part_id].variant_of_id
    if origin is not None:
        yield origin, f"{snapshot.part[part_id].code} is its variant"
    for other in snapshot.parts:
        if other.variant_of_id is not None and other.variant_of_id in (part_id, origin):
            yield other.id, f"variant of {snapshot.part[other.variant_of_id].code}"
