"""The next days that do not move, the hours before them, and what breaks them."""

from collections.abc import Iterable, Iterator
from zoneinfo import ZoneInfo

from buildlog.facts.builds import Milestone, MilestoneTarget
from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.facts.tree import Position
from buildlog.methods.weeks import local_day
from buildlog.status.blockers import Blockers
from buildlog.status.print_pace import home_zone
from buildlog.status.progress import Progress
from buildlog.status.work import WorkDone
from buildlog.terms import BuildState, GoalKind, MilestoneKind, Moment, Side, Wanted, minutes_between, when

BREAKERS = 3
MINUTES_IN_A_DAY = 1440


@frozen
class TargetState:
    """One thing a milestone wants: ``is_met``, else the print minutes beneath it and how many leaf blockers.

    *Ready*: no blockers beneath and nothing that may not carry load yet (``load_until``); *shown*: every slot holds
    something. ``minutes_beneath`` count each slot of its positions once.
    """

    assembly_id: int
    side: Side | None
    name: str
    wanted: Wanted
    is_met: bool
    minutes_beneath: float
    blockers: int
    position_ids: tuple[int, ...]
    load_until: Moment | None


@frozen
class MilestoneState:
    """``days_left`` are days at home (below 0: past); ``bench_minutes`` are mine before it: the hours between the
    start and the end of my days, times the share of the week that is for building.
    """

    milestone_id: int
    build_id: int | None
    code: str
    name: str
    kind: MilestoneKind
    due_at: Moment
    hard: bool
    days_left: int
    bench_minutes: int
    targets: tuple[TargetState, ...]
    is_met: bool

    @property
    def breakers(self) -> tuple[TargetState, ...]:
        """Its unmet targets, most hours beneath first."""
        unmet = [target for target in self.targets if not target.is_met]
        return tuple(sorted(unmet, key=lambda t: (-t.minutes_beneath, -t.blockers, t.name)))


@frozen
class Outlook:
    """``next_hard`` is the next hard milestone, ``breakers`` its three unmet targets with most hours beneath (where
    it names one whole, the assemblies right below that); ``milestones`` are all to come, and the past ones not met,
    by date; ``filming`` the next filming moment per open build.
    """

    next_hard: MilestoneState | None
    breakers: tuple[TargetState, ...]
    milestones: tuple[MilestoneState, ...]
    filming: dict[int, Moment]


def look_ahead(snapshot: Snapshot, now: Moment, work: WorkDone, blockers: Blockers, progress: Progress) -> Outlook:
    """Milestones as they stand; a filming day that names nothing wants the goals of its episode."""
    zone = home_zone(snapshot.settings.home_zone)
    judge = _Judge(snapshot, work, blockers, progress)
    live = [m for m in snapshot.milestones if m.retired_at is None or m.retired_at > now]
    states = [_state(snapshot, now, zone, milestone, judge) for milestone in live]
    kept = sorted((s for s in states if s.due_at >= now or not s.is_met), key=lambda s: (s.due_at, s.milestone_id))
    next_hard = next((state for state in kept if state.hard and state.due_at >= now), None)
    breakers = next_hard.breakers if next_hard else ()
    if next_hard is not None and len(breakers) == 1 and next_hard.targets == breakers:
        breakers = judge.below(breakers[0]) or breakers
    return Outlook(next_hard, breakers[:BREAKERS], tuple(kept), _filming(snapshot, now))


def bench_minutes_until(snapshot: Snapshot, now: Moment, until: Moment) -> int:
    """Minutes of my days from now on, times the share of the week that is for building (approximation: cut neither by
    the hour of today nor by appointments).
    """
    settings = snapshot.settings
    day_minutes = (settings.day_ends_minutes - settings.day_starts_minutes) % MINUTES_IN_A_DAY or MINUTES_IN_A_DAY
    days = max(0, minutes_between(now, until)) / MINUTES_IN_A_DAY
    return round(days * day_minutes * (1 - settings.not_building_percent / 100))


class _Judge:
    """Judges targets: the positions of an assembly on a side, and what is beneath each."""

    def __init__(self, snapshot: Snapshot, work: WorkDone, blockers: Blockers, progress: Progress) -> None:
        self._snapshot, self._work, self._blockers, self._progress = snapshot, work, blockers, progress
        self.roots = [a for a in snapshot.assemblies if a.parent_id is None and a.retired_at is None]
        self._open = {build.id for build in snapshot.builds if build.state is BuildState.OPEN}
        self._targets = grouped(snapshot.milestone_targets, lambda target: target.milestone_id)

    def target(self, assembly_id: int, side: Side | None, wanted: Wanted) -> TargetState:
        positions = self._positions(assembly_id, side)
        ids = tuple(position.id for position in positions)
        count = sum(self._blockers.beneath.get(position_id, 0) for position_id in ids)
        minutes = sum(self._blockers.minutes_beneath.get(position_id, 0) for position_id in ids)
        name = self._snapshot.assembly[assembly_id].name + (f" {side}" if side else "")
        cures = self._load_until(ids) if wanted is Wanted.READY else None
        is_ready = count == 0 and cures is None
        is_met = bool(ids) and (is_ready if wanted is Wanted.READY else all(map(self._is_shown, ids)))
        return TargetState(assembly_id, side, name, wanted, is_met, minutes, count, ids, cures)

    def _load_until(self, position_ids: Iterable[int]) -> Moment | None:
        cures = (self._work.load_until_beneath(place, self._blockers.children) for place in position_ids)
        return max((until for until in cures if until), default=None)

    def _is_shown(self, position_id: int) -> bool:
        progress = self._progress.by_position.get(position_id)
        return progress is not None and progress.shown

    def below(self, target: TargetState) -> tuple[TargetState, ...]:
        """The unmet assemblies right below a target, most hours first."""
        children = [
            self.target(assembly.id, None if assembly.paired else target.side, target.wanted)
            for assembly in self._snapshot.assemblies
            if assembly.parent_id == target.assembly_id and assembly.retired_at is None
        ]
        unmet = [child for child in children if not child.is_met and child.position_ids]
        return tuple(sorted(unmet, key=lambda t: (-t.minutes_beneath, -t.blockers, t.name)))

    def targets_of(self, milestone: Milestone) -> Iterator[TargetState]:
        named = self._targets.get(milestone.id, [])
        if named:
            yield from (self._named(target) for target in named)
        elif milestone.kind is MilestoneKind.FILMING and (goals := self._goals(milestone)):
            yield from goals
        else:
            for root in self.roots:
                if root.build_id == milestone.build_id or (
                    milestone.build_id is None and root.build_id in self._open
                ):
                    yield self.target(root.id, None, Wanted.READY)

    def _named(self, target: MilestoneTarget) -> TargetState:
        return self.target(target.assembly_id, target.side, target.wanted)

    def _goals(self, milestone: Milestone) -> list[TargetState]:
        """The assemblies that the goals of the episode name which films then (other goals are no targets)."""
        episodes = {e.id for e in self._snapshot.episodes if e.films_at == milestone.due_at and e.retired_at is None}
        wanted = {GoalKind.READY: Wanted.READY, GoalKind.SHOWN: Wanted.SHOWN}
        return [
            self.target(goal.assembly_id, goal.side, wanted[goal.kind])
            for goal in self._snapshot.goals
            if goal.episode_id in episodes and goal.assembly_id is not None and goal.kind in wanted
        ]

    def _positions(self, assembly_id: int, side: Side | None) -> list[Position]:
        found = self._snapshot.positions_of.get(assembly_id, [])
        return [position for position in found if side is None or position.side is side]


def _state(snapshot: Snapshot, now: Moment, zone: ZoneInfo, milestone: Milestone, judge: _Judge) -> MilestoneState:
    targets = tuple(judge.targets_of(milestone))
    return MilestoneState(
        milestone_id=milestone.id,
        build_id=milestone.build_id,
        code=milestone.code,
        name=milestone.name,
        kind=milestone.kind,
        due_at=milestone.due_at,
        hard=milestone.hard,
        days_left=(local_day(when(milestone.due_at), zone) - local_day(when(now), zone)).days,
        bench_minutes=bench_minutes_until(snapshot, now, milestone.due_at),
        targets=targets,
        is_met=all(target.is_met for target in targets),
    )


def _filming(snapshot: Snapshot, now: Moment) -> dict[int, Moment]:
    """The next filming moment of each open build: of its episodes, else of its filming milestones."""
    coming = [(e.build_id, e.films_at) for e in snapshot.episodes if e.retired_at is None and e.closed_at is None]
    coming += [
        (m.build_id, m.due_at)
        for m in snapshot.milestones
        if m.kind is MilestoneKind.FILMING and m.build_id is not None and m.retired_at is None
    ]
    found: dict[int, Moment] = {}
    for build_id, at in coming:
        if at >= now and (build_id not in found or at < found[build_id]):
            found[build_id] = at
    opened = {build.id for build in snapshot.builds if build.state is BuildState.OPEN}
    return {build_id: at for build_id, at in found.items() if build_id in opened}
