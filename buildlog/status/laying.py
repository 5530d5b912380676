"""Lays material against what asks for it: exact demands first, then any-colour ones from the largest remainders."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple

from buildlog.facts.snapshot import Snapshot
from buildlog.status.asks import HeadAsk, Key, Work
from buildlog.status.print_pace import home_zone
from buildlog.terms import Moment
from buildlog.wording import day, grams

UNKNOWN = 0
"""Stands for the material of a polymer of which the ledger knows no material."""


Laid = tuple[int, HeadAsk, Work, float]
"""The material, what is laid of it and for which work, and how much print time comes before it, in the order laid (a
plain tuple, for there are many)."""


class NotCovered(NamedTuple):
    """From the slot with ``rank`` on no material is left for this (part, side): of which material (None: the ledger
    knows none of that polymer), and when some is due.
    """

    rank: int
    material_id: int | None
    polymer: str
    reason: str
    due_at: Moment | None


@dataclass(slots=True)
class Laying:
    laid: list[Laid] = field(default_factory=list)
    not_covered: dict[Key, NotCovered] = field(default_factory=dict)


class Uncovered:
    """Says of a slot for which no material is left why, and until when; what is alike is said once. ``arrivals`` tell
    by material when some is due.
    """

    def __init__(self, snapshot: Snapshot, arrivals: dict[int, Moment]) -> None:
        self._materials = snapshot.material
        zone = home_zone(snapshot.settings.home_zone)
        self._due = {material_id: (at, f", due {day(at, zone)}") for material_id, at in arrivals.items()}
        self._told: dict[tuple[int | None, str, int, int], tuple[str, Moment | None]] = {}

    def told(self, rank: int, material_id: int | None, polymer: str, left_mg: int, needed_mg: int) -> NotCovered:
        of = (material_id, polymer, left_mg, needed_mg)
        told = self._told.get(of)
        if told is None:
            told = self._told[of] = self._why(*of)
        return NotCovered(rank, material_id, polymer, *told)

    def _why(self, material_id: int | None, polymer: str, left_mg: int, needed_mg: int) -> tuple[str, Moment | None]:
        if material_id is None:
            return f"the ledger knows no material of {polymer}", None
        due_at, due = self._due.get(material_id, (None, ""))
        left = "none left" if left_mg <= 0 else f"{grams(left_mg)} left, needs {grams(needed_mg)}"
        return f"{self._materials[material_id].code}: {left}{due}", due_at


class _Remainders:
    """What is left of each material; once one demand is not covered, no later one of that material is."""

    def __init__(self, snapshot: Snapshot, free_mg: dict[int, int]) -> None:
        self.left = defaultdict(int, free_mg)
        self.short: set[int | str] = set()
        self._of_polymer: defaultdict[str, list[int]] = defaultdict(list)
        for material in snapshot.materials:
            if material.retired_at is None or free_mg.get(material.id):
                self._of_polymer[material.polymer].append(material.id)

    def take(self, ask: HeadAsk) -> tuple[int, bool]:
        """The material it is laid against, and whether that covers it."""
        material = ask.material_id if ask.material_id is not None else self._largest(ask.polymer)
        source: int | str = material if ask.material_id is not None else f"any {ask.polymer}"
        if material == UNKNOWN or source in self.short or material in self.short or self.left[material] < ask.mg:
            self.short.add(source)
            return material, False
        self.left[material] -= ask.mg
        return material, True

    def _largest(self, polymer: str) -> int:
        known = [m for m in self._of_polymer[polymer] if m not in self.short] or self._of_polymer[polymer]
        return max(known, key=lambda m: (self.left[m], -m), default=UNKNOWN)


def lay(snapshot: Snapshot, free_mg: dict[int, int], work: Iterable[Work], arrivals: dict[int, Moment]) -> Laying:
    """Lay ``free_mg`` by material against the work in its order. What failures cost on top is carried along, but does
    not block: it may not come to it.
    """
    remainders, laying, uncovered = _Remainders(snapshot, free_mg), Laying(), Uncovered(snapshot, arrivals)
    any_colour: list[tuple[Work, HeadAsk, float]] = []
    minutes = 0.0
    left, short, laid = remainders.left, remainders.short, laying.laid
    for one in work:
        for ask in one.asks:
            material, _, mg, _ = ask
            if material is not None and material not in short and left[material] >= mg:  # most of them
                left[material] -= mg
                laid.append((material, ask, one, minutes))
            elif material is None:
                any_colour.append((one, ask, minutes))
            else:
                _lay_one(one, ask, minutes, remainders, laying, uncovered)
        minutes += one.minutes
    for one, ask, at_minutes in any_colour:
        _lay_one(one, ask, at_minutes, remainders, laying, uncovered)
    return laying


def _lay_one(
    work: Work, ask: HeadAsk, at_minutes: float, remainders: _Remainders, laying: Laying, uncovered: Uncovered
) -> None:
    asked, polymer, mg, _ = ask
    material, covered = remainders.take(ask)
    if material != UNKNOWN:
        laying.laid.append((material, ask, work, at_minutes))
    if not covered and work.key is not None:
        known = laying.not_covered.get(work.key)
        if known is None or work.rank < known.rank:
            left = remainders.left[material] if material != UNKNOWN else 0
            of = asked or (material if material != UNKNOWN else None)
            laying.not_covered[work.key] = uncovered.told(work.rank, of, polymer, left, mg)
