"""The next days that do not move, the hours before them, and what breaks them."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.blockers import Blockers
from buildlog.status.hours import Hours
from buildlog.terms import Moment, Side, Wanted


@dataclass(frozen=True, slots=True)
class TargetState:
    """One thing a milestone wants: ``is_met``, else the print minutes beneath it and how many leaf blockers."""

    assembly_id: int
    side: Side | None
    name: str
    wanted: Wanted
    is_met: bool
    hours_beneath_minutes: int
    blockers: int
    position_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class MilestoneState:
    """``days_left`` are whole days at home (below 0: past); ``bench_minutes`` are mine before it: the share of the days
    that is for building."""

    milestone_id: int
    code: str
    name: str
    due_at: Moment
    hard: bool
    days_left: int
    bench_minutes: int
    targets: tuple[TargetState, ...]
    is_met: bool


@dataclass(frozen=True, slots=True)
class Outlook:
    """``next_hard`` is the next hard milestone, ``breakers`` its three unmet targets with most hours beneath;
    ``milestones`` are all to come and the missed hard ones, by date; ``filming`` the next filming moment per build."""

    next_hard: MilestoneState | None
    breakers: tuple[TargetState, ...]
    milestones: tuple[MilestoneState, ...]
    filming: dict[int, Moment]


def look_ahead(snapshot: Snapshot, now: Moment, hours: Hours, blockers: Blockers) -> Outlook:
    raise NotImplementedError
