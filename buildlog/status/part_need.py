"""The count of each part and side over all its slots."""

from collections import Counter
from collections.abc import Callable, Sequence
from operator import itemgetter
from typing import NamedTuple

from buildlog.status.slot import Holds, Slot
from buildlog.terms import Side


class PartNeed(NamedTuple):
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
    slots: Sequence[Slot],
    spares_wanted: dict[tuple[int, Side], int],
    spare: Callable[[int, Side, int], int],
) -> dict[tuple[int, Side], PartNeed]:
    """``spare`` says how many of the wanted spares of a part and side are there or under way."""
    counts: dict[tuple[int, Side], list[int]] = {key: [0, 0, 0, 0, 0] for key in spares_wanted}
    for (part_id, side, holds), slots_so in Counter(map(_ASKED_AND_HELD, slots)).items():
        count = counts.get((part_id, side))
        if count is None:
            count = counts[part_id, side] = [0, 0, 0, 0, 0]
        count[_COLUMN[holds]] += slots_so
    for slot in slots:
        if slot.held:
            counts[slot.part, slot.side][3] += 1
        if slot.stood_in is not None:
            counts[slot.part, slot.side][4] += 1
    needs = {}
    for key, (usable, under_way, to_get, waiting, stood) in counts.items():
        wanted = spares_wanted.get(key, 0)
        short = wanted - spare(*key, wanted) if wanted else 0
        needed = usable + under_way + to_get
        needs[key] = PartNeed(*key, needed, usable, under_way, to_get, waiting, stood, wanted, short)
    return needs


_ASKED_AND_HELD = itemgetter(*map(Slot._fields.index, ("part", "side", "holds")))
_COLUMN = {Holds.FILLED: 0, Holds.ALLOTTED: 0, Holds.UNDER_WAY: 1, Holds.TO_GET: 2}
