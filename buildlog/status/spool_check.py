"""Whether one spool carries a print in one go."""

from dataclasses import dataclass

from buildlog.facts.reference_data import Reference
from buildlog.status.spool_account import SpoolState
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class SpoolCheck:
    """``enough``: the low end of the balance, less the tail that never reaches the nozzle, bears the need with its
    margin. ``tight``: it bears the bare need, but not the margin. ``text`` is as «412 g, needs 380: tight».
    ``wet``: dry it first.
    """

    spool_id: int | None
    needed_mg: int
    has_mg: int
    enough: bool
    tight: bool
    wet: bool
    text: str


def spool_check(needed_mg: int, spool: SpoolState, reference: Reference, now: Moment) -> SpoolCheck:
    raise NotImplementedError
