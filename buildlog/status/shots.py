"""How far each shot is, what it holds, and which episode it falls to."""

from collections.abc import Iterator

from buildlog.facts.bench import Step
from buildlog.facts.builds import Episode
from buildlog.facts.frozen import frozen
from buildlog.facts.shot_state import ShotState, is_of_side, shot_state, still_holds
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.facts.story import Shot
from buildlog.status import bench_minutes
from buildlog.status.blocker import Blocker, BlockerKind, Thing
from buildlog.terms import Moment, Side


@frozen
class ShotStanding:
    """``step`` is the one that it comes before; ``planned`` the episode that it was planned for. Where that is closed
    and nothing is filmed, it was ``carried_over`` and falls to the running one.
    """

    shot: Shot
    state: ShotState
    step: Step | None
    planned: Episode | None
    carried_over: bool

    @property
    def is_open(self) -> bool:
        """Whether something is still to be done about it: filming, or looking at the footage."""
        return self.state in (ShotState.TO_FILM, ShotState.FILMED)


def shots_standing(snapshot: Snapshot, now: Moment) -> tuple[ShotStanding, ...]:
    """Every shot that is not retired, in the order in which they were planned."""
    steps = {step.id: step for step in snapshot.steps} if snapshot.shots else {}
    episodes = {episode.id: episode for episode in snapshot.episodes} if snapshot.shots else {}
    return tuple(
        _standing(shot, steps.get(shot.step_id or 0), episodes.get(shot.episode_id or 0), now)
        for shot in snapshot.shots
        if shot.retired_at is None
    )


def _standing(shot: Shot, step: Step | None, planned: Episode | None, now: Moment) -> ShotStanding:
    state = shot_state(shot, now)
    return ShotStanding(shot, state, step, planned, planned is not None and _carried_over(shot, planned, now))


def _carried_over(shot: Shot, planned: Episode, now: Moment) -> bool:
    """Not filmed when the episode was closed, and not gone on without until then."""
    closed = planned.closed_at
    return closed is not None and closed <= now and shot_state(shot, closed) is ShotState.TO_FILM


def carried_over_from(snapshot: Snapshot, episode: Episode) -> Iterator[Shot]:
    """The shots that the closing of an episode carried over: planned for it or an earlier one, not filmed then."""
    closed = episode.closed_at
    if closed is None:
        return
    for one in shots_standing(snapshot, closed):
        planned = one.planned
        is_of_it = (
            planned is not None and planned.build_id == episode.build_id and planned.films_at <= episode.films_at
        )
        if is_of_it and one.state is ShotState.TO_FILM:
            yield one.shot


def shots_for(snapshot: Snapshot, episode: Episode, now: Moment) -> tuple[ShotStanding, ...]:
    """What is to be filmed for an episode, or was: its own shots; for one that is not closed also those carried over
    and those of no episode that are still open, and footage of an earlier one that nobody has looked at.
    """
    is_closed = episode.closed_at is not None and episode.closed_at <= now
    return tuple(
        one
        for one in shots_standing(snapshot, now)
        if one.shot.build_id == episode.build_id
        and (one.shot.episode_id == episode.id or (not is_closed and one.is_open and _falls_to_any(one)))
    )


def _falls_to_any(one: ShotStanding) -> bool:
    return one.planned is None or one.planned.closed_at is not None


class FilmFirst:
    """The shots that hold a step which cannot be undone, by step."""

    def __init__(self, snapshot: Snapshot, now: Moment) -> None:
        live = (s for s in snapshot.shots if s.retired_at is None and s.step_id is not None and still_holds(s, now))
        self._by_step = grouped(live, lambda shot: shot.step_id)
        self._now = now

    def before(self, step: Step, position_id: int, side: Side, pieces: int = 0) -> Iterator[Blocker]:
        """Blockers instead of the open step: what is to be filmed, or looked at, before it."""
        for shot in self._by_step.get(step.id, ()) if step.cannot_be_undone else ():
            if not is_of_side(shot.side, side):
                continue
            about = Thing("shot", shot.id, shot.code)
            if shot_state(shot, self._now) is ShotState.FILMED:
                text, minutes = f"look at the footage: {shot.what}", bench_minutes.LOOK_AT_FOOTAGE
            else:
                text, minutes = f"film before «{step.name}»: {shot.what}", bench_minutes.FILM_SHOT
            yield Blocker(BlockerKind.FILM_FIRST, position_id, about, text, pieces, bench_minutes=minutes)
