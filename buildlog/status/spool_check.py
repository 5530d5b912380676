"""Whether one spool carries a print in one go."""

from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta
from itertools import accumulate
from typing import NamedTuple

from buildlog.facts.reference_data import Reference
from buildlog.status.spool_account import SpoolState
from buildlog.terms import Moment, moment, when
from buildlog.wording import grams


class SpoolCheck(NamedTuple):
    """``enough``: the low end of the balance, less the tail that never reaches the nozzle, bears the need with its
    margin. ``tight``: it bears the bare need, but not the margin. ``wet``: dry it first. ``spool_id`` None: there is
    no spool of it at all.
    """

    spool_id: int | None
    needed_mg: int
    has_mg: int
    enough: bool
    tight: bool
    wet: bool

    @property
    def carries(self) -> bool:
        """In one go, with its margin or barely."""
        return self.enough or self.tight

    @property
    def text(self) -> str:
        """As «412 g, needs 380 g: tight»."""
        if self.spool_id is None:
            return f"no spool, needs {grams(self.needed_mg)}"
        verdict = "enough" if self.enough else "tight" if self.tight else "not enough"
        wet = ", dry it first" if self.wet else ""
        return f"{grams(self.has_mg)}, needs {grams(self.needed_mg)}: {verdict}{wet}"


class Carrier(NamedTuple):
    """A spool that could carry a print: what it has beyond the tail, at the middle and at the low end of its balance,
    and the margin that a start asks for.
    """

    spool: SpoolState
    has_mg: int
    above_tail_mg: float
    low_above_tail_mg: float
    factor: float
    extra_mg: float

    def bears(self, needed_mg: int) -> bool:
        """With the margin, at the low end of the balance."""
        return self.low_above_tail_mg >= needed_mg * self.factor + self.extra_mg


@dataclass(frozen=True, slots=True, eq=False)
class Carriers:
    """Spools in the order in which they are taken: dry before wet, loaded before not, open before sealed, then the
    one with least on it. ``fullest`` is None where there is none. ``most_mg`` is what any of them up to each one in
    order bears, rounded up.
    """

    in_order: tuple[Carrier, ...]
    fullest: Carrier | None
    most_mg: tuple[float, ...]


NO_CARRIERS = Carriers((), None, ())


Sure = tuple[SpoolState, bool]
"""A spool, and whether it was weighed lately with a known tare."""


def how_sure(spools: Iterable[SpoolState], reference: Reference, now: Moment) -> tuple[Sure, ...]:
    """Lately is within two weeks (usual)."""
    lately = moment(when(now) - timedelta(days=reference.usual["weighed_lately_days"].value))
    return tuple(
        (
            spool,
            spool.last_reading_at is not None and spool.last_reading_at >= lately and not spool.tare_assumed,
        )
        for spool in spools
    )


def carriers(spools: Iterable[Sure], reference: Reference) -> Carriers:
    """The margin is need × 1.05 + 20 g for a spool weighed within two weeks with a known tare, else × 1.15 + 50 g
    (usual). What a running print still takes is not there any more.
    """
    usual = reference.usual
    tail = usual["tail_mg"].value
    margins = {
        sure: (usual[f"start_check_{key}_factor"].value, usual[f"start_check_{key}_extra_mg"].value)
        for sure, key in ((True, "weighed"), (False, "unweighed"))
    }
    found = []
    for spool, sure in spools:
        has = spool.net_mg - spool.still_to_draw_mg
        found.append(Carrier(spool, has, has - tail, has - tail - spool.pm_mg, *margins[sure]))
    fullest = max(found, key=lambda c: (c.has_mg, -c.spool.spool_id), default=None)
    in_order = tuple(sorted(found, key=_order))
    most_mg = accumulate(((one.low_above_tail_mg - one.extra_mg) / one.factor + 1 for one in in_order), max)
    return Carriers(in_order, fullest, tuple(most_mg))


def _order(carrier: Carrier) -> tuple[bool, bool, bool, int, int]:
    spool = carrier.spool
    return spool.wet, spool.loaded_on is None, spool.sealed, carrier.has_mg, spool.spool_id


def check(needed_mg: int, carrier: Carrier) -> SpoolCheck:
    """Whether the spool carries a print of so many milligrams."""
    enough = carrier.bears(needed_mg)
    tight = not enough and carrier.above_tail_mg >= needed_mg
    return SpoolCheck(carrier.spool.spool_id, needed_mg, carrier.has_mg, enough, tight, carrier.spool.wet)


def spool_check(needed_mg: int, spool: SpoolState, reference: Reference, now: Moment) -> SpoolCheck:
    """Check a start on one spool."""
    return check(needed_mg, carriers(how_sure((spool,), reference, now), reference).in_order[0])


def best_spool(needed_mg: int, among: Carriers) -> SpoolCheck:
    """The spool to take: the first one that has enough, else the first that has barely enough, else the fullest."""
    if among.fullest is None:
        return SpoolCheck(None, needed_mg, 0, False, False, False)
    best = among.fullest
    if best.above_tail_mg >= needed_mg:  # else none of them bears it, not even barely
        might = among.in_order[bisect_left(among.most_mg, needed_mg) :]
        able = next((carrier for carrier in might if carrier.bears(needed_mg)), None)
        best = able or next(carrier for carrier in among.in_order if carrier.above_tail_mg >= needed_mg)
    return check(needed_mg, best)
