"""Builds, episodes and milestones, as the record holds them."""

from buildlog.facts.frozen import frozen
from buildlog.terms import BuildState, GoalKind, MilestoneKind, Moment, Side, Wanted


@frozen
class Settings:
    """One row: whose clock and money."""

    id: int
    home_zone: str
    currency: str
    kwh_price_minor: int
    not_building_percent: int
    day_starts_minutes: int
    day_ends_minutes: int


@frozen
class Build:
    id: int
    code: str
    name: str
    rank: int | None
    state: BuildState
    filming_rule: str
    created_at: Moment
    retired_at: Moment | None


@frozen
class Episode:
    id: int
    build_id: int
    number: int
    title: str
    films_at: Moment
    closed_at: Moment | None
    document: str | None
    retired_at: Moment | None


@frozen
class Goal:
    id: int
    episode_id: int
    kind: GoalKind
    assembly_id: int | None
    side: Side | None
    part_id: int | None
    step_id: int | None
    question_id: int | None
    text: str
    ticked_at: Moment | None
    retired_at: Moment | None


@frozen
class Milestone:
    """Without a build it is shared by all of them."""

    id: int
    code: str
    build_id: int | None
    name: str
    kind: MilestoneKind
    due_at: Moment
    hard: bool
    retired_at: Moment | None


@frozen
class MilestoneTarget:
    id: int
    milestone_id: int
    assembly_id: int
    side: Side | None
    wanted: Wanted
