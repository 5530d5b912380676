"""The count of each part and side over all its slots."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from buildlog.status.slot import Holds, Slot
from buildlog.terms import Side


@dataclass(frozen=True, slots=True)
class PartNeed:
    """Counted in slots of open builds: ``needed = usable + under_way + to_get``.

    ``usable`` are fitted or allotted (pieces with open steps too); ``held`` are among those to get, ``stood_in``
    among those not fitted. Spares are on a line of their own: ``spares_to_get`` is what neither pieces left over nor
    prints under way left over cover.
    """

    part_id: int
    side: Side
    needed: int
    usable: int
    under_way: int
    to_get: int
    held: int
    stood_in: int
    spares_wanted: int
    spares_to_get: int


def count_needs(
    slots: Iterable[Slot],
    spares_wanted: dict[tuple[int, Side], int],
    spare: Callable[[int, Side, int], int],
) -> dict[tuple[int, Side], PartNeed]:
    """``spare`` says how many of the wanted spares of a part and side are there or under way."""
    counts: dict[tuple[int, Side], list[int]] = {key: [0, 0, 0, 0, 0] for key in spares_wanted}
    for slot in slots:
        count = counts.get((slot.part, slot.side))
        if count is None:
            count = counts[slot.part, slot.side] = [0, 0, 0, 0, 0]
        count[_COLUMN[slot.holds]] += 1
        count[3] += slot.held
        count[4] += slot.stood_in is not None
    needs = {}
    for (part_id, side), (usable, under_way, to_get, held, stood_in) in counts.items():
        wanted = spares_wanted.get((part_id, side), 0)
        needs[part_id, side] = PartNeed(
            part_id,
            side,
            usable + under_way + to_get,
            usable,
            under_way,
            to_get,
            held,
            stood_in,
            wanted,
            wanted - spare(part_id, side, wanted) if wanted else 0,
        )
    return needs


_COLUMN = {Holds.FILLED: 0, Holds.ALLOTTED: 0, Holds.UNDER_WAY: 1, Holds.TO_GET: 2}
