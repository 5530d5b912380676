"""Whether one spool carries a print in one go."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta
from typing import NamedTuple

from buildlog.facts.reference_data import Reference
from buildlog.status.spool_account import SpoolState
from buildlog.status.wording import grams
from buildlog.terms import Moment, moment, when


@dataclass(frozen=True, slots=True)
class SpoolCheck:
    """``enough``: the low end of the balance, less the tail that never reaches the nozzle, bears the need with its
    margin. ``tight``: it bears the bare need, but not the margin. ``text`` is as «412 g, needs 380 g: tight».
    ``wet``: dry it first. ``spool_id`` None: there is no spool of it at all.
    """

    spool_id: int | None
    needed_mg: int
    has_mg: int
    enough: bool
    tight: bool
    wet: bool
    text: str

    @property
    def carries(self) -> bool:
        """In one go, with its margin or barely."""
        return self.enough or self.tight


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
    order: tuple[bool, bool, bool]


def carriers(spools: Iterable[SpoolState], reference: Reference, now: Moment) -> list[Carrier]:
    """The margin is need × 1.05 + 20 g for a spool weighed within two weeks with a known tare, else × 1.15 + 50 g
    (usual). What a running print still takes is not there any more.
    """
    usual = reference.usual
    lately = moment(when(now) - timedelta(days=usual["weighed_lately_days"].value))
    tail = usual["tail_mg"].value
    margins = {
        sure: (usual[f"start_check_{key}_factor"].value, usual[f"start_check_{key}_extra_mg"].value)
        for sure, key in ((True, "weighed"), (False, "unweighed"))
    }
    found = []
    for spool in spools:
        sure = spool.last_reading_at is not None and spool.last_reading_at >= lately and not spool.tare_assumed
        has = spool.net_mg - spool.still_to_draw_mg
        order = (spool.wet, spool.loaded_on is None, spool.sealed)
        found.append(Carrier(spool, has, has - tail, has - tail - spool.pm_mg, *margins[sure], order))
    return found


def check(needed_mg: int, carrier: Carrier) -> SpoolCheck:
    """Whether the spool carries a print of so many milligrams."""
    enough = carrier.low_above_tail_mg >= needed_mg * carrier.factor + carrier.extra_mg
    tight = not enough and carrier.above_tail_mg >= needed_mg
    verdict = "enough" if enough else "tight" if tight else "not enough"
    wet = carrier.spool.wet
    text = f"{grams(carrier.has_mg)}, needs {grams(needed_mg)}: {verdict}{', dry it first' if wet else ''}"
    return SpoolCheck(carrier.spool.spool_id, needed_mg, carrier.has_mg, enough, tight, wet, text)


def spool_check(needed_mg: int, spool: SpoolState, reference: Reference, now: Moment) -> SpoolCheck:
    """Check a start on one spool."""
    return check(needed_mg, carriers((spool,), reference, now)[0])


def best_spool(needed_mg: int, among: list[Carrier]) -> SpoolCheck:
    """The spool to take: one that has enough, dry before wet, loaded before not, open before sealed, then the one
    with least left over; where none has enough the fullest.
    """
    able = [c for c in among if c.low_above_tail_mg >= needed_mg * c.factor + c.extra_mg]
    able = able or [c for c in among if c.above_tail_mg >= needed_mg]
    if able:
        return check(needed_mg, min(able, key=lambda c: (c.order, c.has_mg, c.spool.spool_id)))
    if among:
        return check(needed_mg, max(among, key=lambda c: (c.has_mg, -c.spool.spool_id)))
    return SpoolCheck(None, needed_mg, 0, False, False, False, f"no spool, needs {grams(needed_mg)}")
