"""Bench work: steps and their ticks, waits, questions, fit tests and results."""

from sqlalchemy import CheckConstraint, UniqueConstraint
from sqlmodel import Field

from buildlog.record.tables.columns import Row, choice, maybe_ref, ref
from buildlog.terms import FitKind, FitOutcome, FitRule, Side, StepKind, WhatThen


class Step(Row, table=True):
    """Work in an assembly (per position) or on a part (per piece)."""

    __tablename__ = "step"
    __table_args__ = (CheckConstraint("(assembly_id IS NULL) <> (part_id IS NULL)", name="one_place"),)

    code: str = Field(unique=True)
    assembly_id: int | None = maybe_ref("assembly")
    part_id: int | None = maybe_ref("part")
    place: int
    name: str
    kind: StepKind = choice(StepKind, "kind")
    bench_minutes: int
    handle_after_minutes: int = 0
    load_after_minutes: int = 0
    jig_id: int | None = maybe_ref("resource")
    helper_can: bool = False
    needs_two: bool = False
    cannot_be_undone: bool = False
    retired_at: str | None = None


class StepUse(Row, table=True):
    __tablename__ = "step_use"
    __table_args__ = (UniqueConstraint("step_id", "bought_item_id"),)

    step_id: int = ref("step")
    bought_item_id: int = ref("bought_item")
    quantity: int


class StepDone(Row, table=True):
    """A tick; for a step on a part it counts pieces of a lot."""

    __tablename__ = "step_done"
    __table_args__ = (CheckConstraint("(position_id IS NULL) <> (lot_id IS NULL)", name="one_place"),)

    step_id: int = ref("step")
    position_id: int | None = maybe_ref("position")
    lot_id: int | None = maybe_ref("lot")
    pieces: int = 1
    at: str
    real_minutes: int | None = None
    overruled: bool = False
    reopened_at: str | None = None


class Wait(Row, table=True):
    """Assembly (ready, or one step of it) waits for another assembly (ready, or one step of it)."""

    __tablename__ = "wait"

    assembly_id: int = ref("assembly")
    step_id: int | None = maybe_ref("step")
    on_assembly_id: int = ref("assembly")
    on_step_id: int | None = maybe_ref("step")
    retired_at: str | None = None


class Question(Row, table=True):
    __tablename__ = "question"

    code: str = Field(unique=True)
    build_id: int = ref("build")
    text: str
    asked_at: str
    answer: str = ""
    answered_at: str | None = None
    retired_at: str | None = None


class QuestionTarget(Row, table=True):
    __tablename__ = "question_target"
    __table_args__ = (CheckConstraint("(assembly_id IS NULL) <> (part_id IS NULL)", name="one_place"),)

    question_id: int = ref("question")
    assembly_id: int | None = maybe_ref("assembly")
    part_id: int | None = maybe_ref("part")
    side: Side | None = choice(Side, "side", default=None)


class FitTest(Row, table=True):
    __tablename__ = "fit_test"

    code: str = Field(unique=True)
    assembly_id: int = ref("assembly")
    name: str
    kind: FitKind = choice(FitKind, "kind")
    rule: FitRule = choice(FitRule, "rule")
    bench_minutes: int
    face: str = ""
    low_um: int | None = None
    high_um: int | None = None
    retired_at: str | None = None


class FitTestUsage(Row, table=True):
    __tablename__ = "fit_test_usage"
    __table_args__ = (UniqueConstraint("fit_test_id", "usage_id"),)

    fit_test_id: int = ref("fit_test")
    usage_id: int = ref("usage")


class FitResult(Row, table=True):
    __tablename__ = "fit_result"
    __table_args__ = (CheckConstraint("outcome <> 'failed' OR what_then IS NOT NULL", name="what_then_known"),)

    fit_test_id: int = ref("fit_test")
    position_id: int = ref("position")
    at: str
    outcome: FitOutcome = choice(FitOutcome, "outcome")
    measured_um: int | None = None
    what_then: WhatThen | None = choice(WhatThen, "what_then", default=None)
    spot_check: bool = False
    text: str = ""


class FitTouch(Row, table=True):
    """What a result touched: what stood in a slot at that moment, in which revision, reworked how often."""

    __tablename__ = "fit_touch"

    fit_result_id: int = ref("fit_result")
    position_id: int = ref("position")
    usage_id: int = ref("usage")
    number: int
    lot_id: int | None = maybe_ref("lot")
    part_id: int | None = maybe_ref("part")
    revision_id: int | None = maybe_ref("revision")
    reworks: int = 0
    stand_in: bool = False
