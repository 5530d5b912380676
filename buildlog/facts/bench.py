"""Steps, waits, questions, fit tests and results."""

from buildlog.facts.frozen import frozen
from buildlog.terms import FitKind, FitOutcome, FitRule, Moment, Side, StepKind, WhatThen


@frozen
class Step:
    """Work in an assembly (per position) or on a part (per piece)."""

    id: int
    code: str
    assembly_id: int | None
    part_id: int | None
    place: int
    name: str
    kind: StepKind
    bench_minutes: int
    handle_after_minutes: int
    load_after_minutes: int
    jig_id: int | None
    helper_can: bool
    needs_two: bool
    cannot_be_undone: bool
    retired_at: Moment | None


@frozen
class StepUse:
    id: int
    step_id: int
    bought_item_id: int
    quantity: int


@frozen
class StepDone:
    """A tick; for a step on a part it counts pieces of a lot."""

    id: int
    step_id: int
    position_id: int | None
    lot_id: int | None
    pieces: int
    at: Moment
    real_minutes: int | None
    overruled: bool
    reopened_at: Moment | None


@frozen
class Wait:
    """Assembly (ready, or one step of it) waits for another assembly (ready, or one step of it)."""

    id: int
    assembly_id: int
    step_id: int | None
    on_assembly_id: int
    on_step_id: int | None
    retired_at: Moment | None


@frozen
class Question:
    id: int
    code: str
    build_id: int
    text: str
    asked_at: Moment
    answer: str
    answered_at: Moment | None
    retired_at: Moment | None


@frozen
class QuestionTarget:
    id: int
    question_id: int
    assembly_id: int | None
    part_id: int | None
    side: Side | None


@frozen
class FitTest:
    id: int
    code: str
    assembly_id: int
    name: str
    kind: FitKind
    rule: FitRule
    bench_minutes: int
    face: str
    low_um: int | None
    high_um: int | None
    retired_at: Moment | None


@frozen
class FitTestUsage:
    id: int
    fit_test_id: int
    usage_id: int


@frozen
class FitResult:
    id: int
    fit_test_id: int
    position_id: int
    at: Moment
    outcome: FitOutcome
    measured_um: int | None
    what_then: WhatThen | None
    spot_check: bool
    text: str


@frozen
class FitTouch:
    """What a result touched: what stood in a slot at that moment, in which revision, reworked how often."""

    id: int
    fit_result_id: int
    position_id: int
    usage_id: int
    number: int
    lot_id: int | None
    part_id: int | None
    revision_id: int | None
    reworks: int
    stand_in: bool
