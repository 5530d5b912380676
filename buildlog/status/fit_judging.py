"""The verdict on one fit test in one position, by the test's own rule of what makes a result stale."""

from collections.abc import Sequence
from enum import StrEnum
from typing import NamedTuple

from buildlog.facts.bench import FitResult, FitTest, FitTouch
from buildlog.status.fit_slots import Stands
from buildlog.terms import FitOutcome, FitRule, Moment, WhatThen


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
    ``load_until``: a test of kind load or on-person waits for a cure until then. ``can_test``: its slots all hold
    something.
    """

    test_id: int
    position_id: int
    verdict: Verdict
    result_id: int | None
    why: str
    as_is: bool = False
    load_until: Moment | None = None
    can_test: bool = False


Compared = tuple[FitTouch, Stands | None]
"""What a result touched in a slot, and what stands there now."""


def judge(
    test: FitTest,
    position_id: int,
    result: FitResult | None,
    compared: Sequence[Compared],
    slots_changed: str,
    can_test: bool,
    load_until: Moment | None,
) -> FitState:
    """``result`` is the last one that counts; what an empty slot held is compared when something stands there again.

    ``slots_changed`` says which slots have gone or come since, empty where none.
    """

    def told(verdict: Verdict, why: str, as_is: bool = False) -> FitState:
        return FitState(
            test.id, position_id, verdict, result.id if result else None, why, as_is, load_until, can_test
        )

    untested = Verdict.DUE if can_test else Verdict.NOT_YET
    if result is None:
        return told(untested, "to be tested" if can_test else "its slots do not all hold something yet")
    standing = [(touch, stands) for touch, stands in compared if stands is not None]
    if result.outcome is FitOutcome.FAILED and result.what_then is not WhatThen.USE_AS_IS:
        all_there = len(standing) == len(compared) and not slots_changed
        if all_there and not any(_differs(t, s, result.at) for t, s in standing):
            return told(Verdict.FAILED, _failed(result))
        return told(untested, f"{_failed(result)}; changed since, to be tested again")
    as_is = result.outcome is FitOutcome.FAILED
    stale = slots_changed or next((why for t, s in standing if (why := _stale(test.rule, t, s, result.at))), "")
    if stale:
        return told(Verdict.STALE, stale, as_is)
    if any(_is_another(t, s, result.at) for t, s in standing):
        return told(Verdict.SPOT_CHECK, "another piece of the same revision: check one spot", as_is)
    return told(Verdict.PASSED, "used as it is" if as_is else "passed", as_is)


def _failed(result: FitResult) -> str:
    return f"failed: {result.what_then}" if result.what_then else "failed"


def _is_another(touch: FitTouch, stands: Stands, result_at: Moment) -> bool:
    """Whether another piece stands there; pieces without a lot are told by when they were put there."""
    if touch.lot_id is None and stands.lot_id is None:
        return stands.from_at > result_at
    return touch.lot_id != stands.lot_id


def _differs(touch: FitTouch, stands: Stands, result_at: Moment) -> bool:
    return (
        touch.part_id != stands.part_id
        or touch.revision_id != stands.revision_id
        or touch.reworks != stands.reworks
        or _is_another(touch, stands, result_at)
    )


def _stale(rule: FitRule, touch: FitTouch, stands: Stands, result_at: Moment) -> str:
    """Why the result no longer holds; empty while it does."""
    if touch.stand_in and (not stands.stand_in or _is_another(touch, stands, result_at)):
        return "it passed on a stand-in that was replaced since"
    if touch.part_id != stands.part_id:
        return "another part stands there now"
    if touch.revision_id != stands.revision_id:
        return "a new revision stands there now"
    if rule is FitRule.ANY_NEW_PIECE and _is_another(touch, stands, result_at):
        return "a new piece stands there now"
    if rule is FitRule.REWORK and touch.reworks != stands.reworks:
        return "it was reworked since"
    return ""
