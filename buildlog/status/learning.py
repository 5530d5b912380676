"""What the prints so far have taught: hours, failures, grams, pace."""

from collections.abc import Iterable
from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.methods.learned import Learned, Tally
from buildlog.methods.pace import Pace
from buildlog.terms import Moment

Polymers = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GramsLearned:
    """Real ÷ estimated grams of a material, from ``intervals`` between two weigh-ins; ``usual`` below five of them."""

    material_id: int
    ratio: float
    intervals: int
    usual: bool


@dataclass(frozen=True, slots=True)
class Learning:
    """``cell`` gives the learned figures; ``grams`` has a row per material that was weighed between prints."""

    tally: Tally
    grams: dict[int, GramsLearned]
    pace: Pace

    def cell(self, printer_id: int | None, polymers: Iterable[str], estimate_from: str = "") -> Learned:
        """The figures of a printer with the polymers of a print, for estimates from one program.

        Without a printer those of all together.
        """
        raise NotImplementedError

    def grams_ratio(self, material_id: int | None) -> float:
        learned = self.grams.get(material_id) if material_id is not None else None
        return learned.ratio if learned else 1.0


def learn(snapshot: Snapshot, now: Moment) -> Learning:
    raise NotImplementedError
