"""The goals of the running episodes, and what serves them."""

from buildlog.facts.builds import Episode, Goal
from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.status.blocker import Thing
from buildlog.status.blockers import Blockers
from buildlog.status.shots import ShotStanding, shots_for
from buildlog.terms import BuildState, GoalKind, Moment


@frozen
class Goals:
    """``positions`` are those below a goal, ``things`` (noun, id) what a goal names; ``free`` are ticked by hand.
    ``shots`` are those of the running episodes of which something is still to be done; they are ``things`` too.
    """

    positions: frozenset[int]
    things: frozenset[tuple[str, int]]
    free: tuple[Goal, ...]
    shots: tuple[ShotStanding, ...] = ()

    def served_by(self, about: Thing, position_ids: tuple[int, ...]) -> bool:
        return (about.noun, about.id) in self.things or not self.positions.isdisjoint(position_ids)


def running_episodes(snapshot: Snapshot, now: Moment) -> dict[int, Episode]:
    """By open build: the episode that films next, of those not closed; the last of them once all are filmed."""
    found: dict[int, Episode] = {}
    open_builds = {b.id for b in snapshot.builds if b.state is BuildState.OPEN and b.retired_at is None}
    live = (e for e in snapshot.episodes if e.closed_at is None and e.retired_at is None)
    for build_id, episodes in grouped((e for e in live if e.build_id in open_builds), lambda e: e.build_id).items():
        to_come = [episode for episode in episodes if episode.films_at >= now]
        if to_come:
            found[build_id] = min(to_come, key=lambda e: (e.films_at, e.id))
        else:
            found[build_id] = max(episodes, key=lambda e: (e.films_at, e.id))
    return found


def running_goals(snapshot: Snapshot, now: Moment, blockers: Blockers) -> Goals:
    episodes = running_episodes(snapshot, now).values()
    running = {episode.id for episode in episodes}
    goals = [
        goal
        for goal in snapshot.goals
        if goal.episode_id in running and goal.ticked_at is None and goal.retired_at is None
    ]
    positions: set[int] = set()
    things: set[tuple[str, int]] = set()
    for goal in goals:
        if goal.kind in (GoalKind.READY, GoalKind.SHOWN) and goal.assembly_id is not None:
            positions |= _at_and_below(snapshot, goal, blockers)
        named = (("step", goal.step_id), ("part", goal.part_id), ("question", goal.question_id))
        things |= {(noun, row_id) for noun, row_id in named if row_id is not None}
    free = tuple(goal for goal in goals if goal.kind is GoalKind.FREE)
    shots = tuple(one for episode in episodes for one in shots_for(snapshot, episode, now) if one.is_open)
    things |= {("shot", one.shot.id) for one in shots}
    return Goals(frozenset(positions), frozenset(things), free, shots)


def _at_and_below(snapshot: Snapshot, goal: Goal, blockers: Blockers) -> set[int]:
    """Positions of the goal's assembly, all below them, and what these wait for."""
    waiting = [
        position.id
        for position in snapshot.positions_of.get(goal.assembly_id or 0, ())
        if goal.side is None or position.side is goal.side
    ]
    found = set(waiting)
    while waiting:
        place = waiting.pop()
        for target in (*blockers.children.get(place, ()), *blockers.waits_for.get(place, ())):
            if target not in found:
                found.add(target)
                waiting.append(target)
    return found
