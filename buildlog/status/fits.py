"""Which fits are due, passed, failed or gone stale, and which lead sides are proven by theirs."""

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from buildlog.facts.snapshot import Snapshot
from buildlog.status.work import WorkDone
from buildlog.terms import Moment, Side


class Verdict(StrEnum):
    NOT_YET = "not yet"
    DUE = "due"
    PASSED = "passed"
    FAILED = "failed"
    STALE = "stale"
    SPOT_CHECK = "spot check"

    @property
    def holds(self) -> bool:
        """Whether the fit is passed and fresh; a reprint of the same revision only asks for a look."""
        return self in (Verdict.PASSED, Verdict.SPOT_CHECK)


class FitState(NamedTuple):
    """One instance of a test. ``result_id`` is the result that it was judged by, ``why`` says it in plain words.

    ``as_is``: it failed and the piece is used as it is; that passes for the position and proves no lead side.
    ``load_until``: a test of kind load or on-person waits for a cure until then.
    """

    test_id: int
    position_id: int
    verdict: Verdict
    result_id: int | None
    why: str
    as_is: bool = False
    load_until: Moment | None = None


@dataclass(frozen=True, slots=True)
class Fits:
    """``held_assembly_sides``: by assembly, the side that waits until the lead side's fit is passed and fresh."""

    all: tuple[FitState, ...]
    by_position: dict[int, tuple[FitState, ...]]
    held_assembly_sides: dict[int, Side]


def judge_fits(snapshot: Snapshot, now: Moment, work: WorkDone) -> Fits:
    """Every live test in every live position of its assembly, compared with what stands in its slots at ``now``."""
    raise NotImplementedError
