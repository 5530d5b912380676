"""Recording what a fit test found, and what it touched."""

from sqlmodel import col

from buildlog.errors import BadWish, Refused
from buildlog.proposals.fits import RecordFit
from buildlog.record.actions.allotted import fit_allotted
from buildlog.record.actions.moments import local
from buildlog.record.actions.overruling import unless
from buildlog.record.actions.places import SlotKey, below, by_prefix, position_at, position_name, slots_of
from buildlog.record.actions.rework import call_for_rework, reworks_in
from buildlog.record.actions.slot_spans import standing_in, take_out_of, what_stands
from buildlog.record.tables.bench import FitResult, FitTest, FitTestUsage, FitTouch, Step, StepDone
from buildlog.record.tables.pieces import Fitting, Lot
from buildlog.record.tables.tree import Part, Position, Usage
from buildlog.record.writer import Work
from buildlog.terms import FitKind, FitOutcome, Moment, WhatThen, later
from buildlog.wording import mm


def record_fit(wish: RecordFit, work: Work) -> str:
    test = by_prefix(work, FitTest, wish.test, "fit test")
    position = position_at(work, wish.place)
    if position.assembly_id != test.assembly_id:
        name = position_name(work, position.id or 0)
        raise BadWish((("place", f"{test.code} is not tested on {name}: name a position of its assembly"),))
    outcome, then = _outcome(wish, test), WhatThen(wish.what_then) if wish.what_then else None
    _check_what_then(wish, outcome, then)
    if not wish.overruled:
        _refuse_load(wish, work, test, position)
    for position_id, usage_id, number, lot_id in wish.fits:
        fit_allotted(work, work.get(Position, position_id), (usage_id, number, lot_id))
    touched = _touched(work, test, position)
    result = work.add(
        FitResult(
            fit_test_id=test.id or 0,
            position_id=position.id or 0,
            at=work.at,
            outcome=outcome,
            measured_um=wish.measured,
            what_then=then,
            spot_check=wish.spot_check,
            text=wish.text,
        )
    )
    for slot, fitting in touched:
        work.add(_touch(work, result, slot, fitting))
    done = _follow_up(wish, work, test, position, then, [f for _, f in touched if f])
    said = f", {mm(wish.measured)}" if wish.measured is not None else ""
    return f"{test.code} on {position_name(work, position.id or 0)}: {outcome}{said}.{done}"


def _outcome(wish: RecordFit, test: FitTest) -> FitOutcome:
    """As said, or by what was measured; Refused when the two contradict."""
    outside = wish.measured is not None and (
        (test.low_um is not None and wish.measured < test.low_um)
        or (test.high_um is not None and wish.measured > test.high_um)
    )
    limited = wish.measured is not None and (test.low_um is not None or test.high_um is not None)
    if wish.outcome is None:
        if not limited:
            raise BadWish((("outcome", "say whether it passed or failed: there is nothing to tell it by"),))
        return FitOutcome.FAILED if outside else FitOutcome.PASSED
    if wish.outcome == FitOutcome.PASSED and outside:
        raise BadWish((("outcome", f"{_limits(test)} was asked: record it as failed, «use as is» when it will do"),))
    return FitOutcome(wish.outcome)


def _limits(test: FitTest) -> str:
    low = f"at least {mm(test.low_um)}" if test.low_um is not None else ""
    high = f"at most {mm(test.high_um)}" if test.high_um is not None else ""
    return " and ".join(filter(None, (low, high)))


def _check_what_then(wish: RecordFit, outcome: FitOutcome, then: WhatThen | None) -> None:
    if outcome is FitOutcome.FAILED and then is None:
        raise BadWish((("what_then", f"it failed: say what then, {', '.join(WhatThen)}"),))
    if outcome is FitOutcome.PASSED and then is not None:
        raise BadWish((("what_then", "it passed: leave this empty"),))
    if wish.scrap and then not in (WhatThen.REPRINT, WhatThen.SCRAP):
        raise BadWish((("scrap", "only what is to be reprinted or scrapped is taken out"),))


def _refuse_load(wish: RecordFit, work: Work, test: FitTest, position: Position) -> None:
    """A joint is not loaded before its time, by a load or by a person."""
    if test.kind not in (FitKind.LOAD, FitKind.ON_PERSON):
        return
    ids = [sub.id for sub in below(work, position)]
    ticks = work.all(StepDone, col(StepDone.position_id).in_(ids), StepDone.at <= work.at, reopened_at=None)
    for tick in ticks:
        step = work.get(Step, tick.step_id)
        over = later(Moment(tick.at), step.load_after_minutes)
        if over > work.at:
            where = position_name(work, tick.position_id or 0)
            told = f"«{step.name}» on {where} may be loaded from {local(work, over)} on: test it then."
            raise unless("overruled", wish, told)


def _touched(work: Work, test: FitTest, position: Position) -> list[tuple[SlotKey, Fitting | None]]:
    """Every slot that the test touches below the position, with what stands there."""
    usages = [work.get(Usage, link.usage_id) for link in work.all(FitTestUsage, fit_test_id=test.id)]
    live = [usage for usage in usages if usage.ended_at is None or usage.ended_at > work.at]
    found = [
        (slot, standing_in(work, slot))
        for place in below(work, position)
        for usage in live
        if usage.assembly_id == place.assembly_id
        for slot in slots_of(work, place, usage)
    ]
    if found and not any(fitting for _, fitting in found):
        name = position_name(work, position.id or 0)
        raise Refused(f"Nothing stands in the slots of {name} that {test.code} touches: fit the pieces first.")
    return found


def _touch(work: Work, result: FitResult, slot: SlotKey, fitting: Fitting | None) -> FitTouch:
    lot = work.get(Lot, fitting.lot_id) if fitting and fitting.lot_id is not None else None
    bought = fitting is not None and lot is None and not fitting.what
    return FitTouch(
        fit_result_id=result.id or 0,
        position_id=slot.position.id or 0,
        usage_id=slot.usage.id or 0,
        number=slot.number,
        lot_id=lot.id if lot else None,
        part_id=lot.part_id if lot else slot.part.id if bought else None,
        revision_id=lot.revision_id if lot else None,
        reworks=reworks_in(work, slot.position.id or 0, lot.id if lot else None) if fitting else 0,
        stand_in=fitting.stand_in if fitting else False,
    )


def _follow_up(
    wish: RecordFit,
    work: Work,
    test: FitTest,
    position: Position,
    then: WhatThen | None,
    touched: list[Fitting],
) -> str:
    if then is WhatThen.REWORK:
        step = call_for_rework(work, position, f"Rework for {test.code}")
        return f" To do: «{step.name}»."
    names = []
    for fitting in _to_scrap(wish, work, test, then, touched):
        take_out_of(work, fitting, scrap=True, at=work.at, cause=f"{test.code} failed")
        names.append(what_stands(work, fitting))
    return f" Scrapped {', '.join(names)}." if names else ""


def _to_scrap(
    wish: RecordFit, work: Work, test: FitTest, then: WhatThen | None, touched: list[Fitting]
) -> list[Fitting]:
    """Those named; where none is and it touches only one, that one."""
    if then in (WhatThen.REPRINT, WhatThen.SCRAP) and not wish.scrap:
        if len(touched) > 1:
            names = ", ".join(what_stands(work, fitting) for fitting in touched)
            raise BadWish((("scrap", f"say which: it touches {names}"),))
        return touched
    found: list[Fitting] = []
    for wanted in wish.scrap:
        meant = [fitting for fitting in touched if _is_meant(work, fitting, wanted)]
        if not meant:
            raise BadWish((("scrap", f"{test.code} touches no {wanted}: name a mark or part that it touches"),))
        found += (fitting for fitting in meant if fitting not in found)
    return found


def _is_meant(work: Work, fitting: Fitting, wanted: str) -> bool:
    if fitting.until_at is not None:
        return False
    if fitting.lot_id is not None and work.get(Lot, fitting.lot_id).mark == wanted:
        return True
    return work.get(Part, work.get(Usage, fitting.usage_id).part_id).code == wanted
