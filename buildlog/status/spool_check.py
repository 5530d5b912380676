"""Whether one spool carries a print in one go."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta

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


def spool_check(needed_mg: int, spool: SpoolState, reference: Reference, now: Moment) -> SpoolCheck:
    """Check a start: need × 1.05 + 20 g when weighed within two weeks with a known tare, else × 1.15 + 50 g (usual).

    What a running print still takes is not there any more.
    """
    usual = reference.usual
    lately = moment(when(now) - timedelta(days=usual["weighed_lately_days"].value))
    sure = spool.last_reading_at is not None and spool.last_reading_at >= lately and not spool.tare_assumed
    key = "weighed" if sure else "unweighed"
    margin = needed_mg * usual[f"start_check_{key}_factor"].value + usual[f"start_check_{key}_extra_mg"].value
    has = spool.net_mg - spool.still_to_draw_mg
    tail = usual["tail_mg"].value
    enough = has - spool.pm_mg - tail >= margin
    tight = not enough and has - tail >= needed_mg
    verdict = "enough" if enough else "tight" if tight else "not enough"
    text = f"{grams(has)}, needs {grams(needed_mg)}: {verdict}{', dry it first' if spool.wet else ''}"
    return SpoolCheck(spool.spool_id, needed_mg, has, enough, tight, spool.wet, text)


def best_spool(needed_mg: int, spools: Iterable[SpoolState], reference: Reference, now: Moment) -> SpoolCheck:
    """The spool to take: one that has enough, dry before wet, loaded before not, open before sealed, then the one
    with least left over; where none has enough the fullest.
    """
    ranked = [
        (
            (not check.enough, not check.tight, check.wet, spool.loaded_on is None, spool.sealed),
            check.has_mg if check.carries else -check.has_mg,
            spool.spool_id,
            check,
        )
        for spool in spools
        for check in (spool_check(needed_mg, spool, reference, now),)
    ]
    if not ranked:
        return SpoolCheck(None, needed_mg, 0, False, False, False, f"no spool, needs {grams(needed_mg)}")
    return min(ranked, key=lambda row: row[:3])[3]
