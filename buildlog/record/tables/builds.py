"""Builds, episodes and the dated things to make."""

from sqlmodel import Field

from buildlog.record.tables.columns import Row, choice, maybe_ref, ref
from buildlog.terms import BuildState, GoalKind, MilestoneKind, Side, Wanted


class Settings(Row, table=True):
    """One row: whose clock and money."""

    __tablename__ = "settings"

    home_zone: str
    currency: str
    kwh_price_minor: int
    not_building_percent: int
    day_starts_minutes: int
    day_ends_minutes: int


class Build(Row, table=True):
    __tablename__ = "build"

    code: str = Field(unique=True)
    name: str
    rank: int | None = None
    state: BuildState = choice(BuildState, "state")
    filming_rule: str = ""
    created_at: str
    retired_at: str | None = None


class Episode(Row, table=True):
    __tablename__ = "episode"

    build_id: int = ref("build")
    number: int
    title: str = ""
    films_at: str
    closed_at: str | None = None
    document: str | None = None
    retired_at: str | None = None


class Goal(Row, table=True):
    __tablename__ = "goal"

    episode_id: int = ref("episode")
    kind: GoalKind = choice(GoalKind, "kind")
    assembly_id: int | None = maybe_ref("assembly")
    side: Side | None = choice(Side, "side", default=None)
    part_id: int | None = maybe_ref("part")
    step_id: int | None = maybe_ref("step")
    question_id: int | None = maybe_ref("question")
    text: str = ""
    ticked_at: str | None = None
    retired_at: str | None = None


class Milestone(Row, table=True):
    """Without a build it is shared by all of them."""

    __tablename__ = "milestone"

    code: str = Field(unique=True)
    build_id: int | None = maybe_ref("build")
    name: str
    kind: MilestoneKind = choice(MilestoneKind, "kind")
    due_at: str
    hard: bool
    retired_at: str | None = None


class MilestoneTarget(Row, table=True):
    __tablename__ = "milestone_target"

    milestone_id: int = ref("milestone")
    assembly_id: int = ref("assembly")
    side: Side | None = choice(Side, "side", default=None)
    wanted: Wanted = choice(Wanted, "wanted")
