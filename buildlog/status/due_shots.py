"""Shots to catch up with: what should have been filmed, and footage that nobody has looked at."""

from collections.abc import Iterator

from buildlog.facts.shot_state import ShotState
from buildlog.proposals.shots import FilmShot, FootageLost, FootageSafe, OverruleShot
from buildlog.status.blocker import BlockerKind, Thing
from buildlog.status.day_rhythm import when_up
from buildlog.status.due import Asking, Due, DueKind, Reply, in_words
from buildlog.status.shots import ShotStanding, shots_standing
from buildlog.status.status import Status
from buildlog.terms import Moment, later

COPIED_AFTER_MINUTES = 60
"""Our choice: so long after filming the footage is copied and looked at, by day."""


def due_shots(status: Status, since: Moment) -> Iterator[Due]:
    """Those of a filming day that is over, those that hold a step which could have been done, then footage."""
    standing = [one for one in shots_standing(status.snapshot, status.now) if one.is_open]
    holding = {
        leaf.about.id
        for leaves in status.blockers.leaves.values()
        for leaf in leaves
        if leaf.kind is BlockerKind.FILM_FIRST and leaf.bench_minutes is not None
    }
    for one in standing:
        if one.state is ShotState.TO_FILM:
            at = _filming_over(status, one, since)
            if at is None and one.shot.id in holding:
                at = when_up(since, status.snapshot.settings)
            if at is not None and at < status.now:
                yield _to_film(status, one, at)
    for one in standing:
        if one.state is ShotState.FILMED and one.shot.filmed_at is not None:
            at = when_up(later(one.shot.filmed_at, COPIED_AFTER_MINUTES), status.snapshot.settings)
            if at < status.now:
                yield _to_copy(status, one, at)


def _filming_over(status: Status, one: ShotStanding, since: Moment) -> Moment | None:
    """The filming moment that it was planned for; without an episode of its own the last one since the last entry."""
    if one.planned is not None and not one.carried_over:
        return one.planned.films_at if one.planned.films_at <= status.now else None
    return max(
        (
            episode.films_at
            for episode in status.snapshot.episodes
            if episode.build_id == one.shot.build_id and since < episode.films_at <= status.now
        ),
        default=None,
    )


def _to_film(status: Status, one: ShotStanding, at: Moment) -> Due:
    shot = {"shot": one.shot.code}
    before = f", before «{one.step.name}»" if one.step is not None else ""
    return _due(
        one,
        f"film {one.shot.what}{before}",
        f"filmed {in_words(status, at)}",
        at,
        planned=Reply("filmed", Asking(FilmShot, shot, (), at, "filmed")),
        failed=Reply("gone on without: why", Asking(OverruleShot, shot, ("why",), at)),
        not_done="not filmed yet",
        whole=Asking(FilmShot, shot, ("safe",), at, "filmed"),
    )


def _to_copy(status: Status, one: ShotStanding, at: Moment) -> Due:
    shot = {"shot": one.shot.code}
    copied = Asking(FootageSafe, shot, (), at, "copied")
    return _due(
        one,
        f"footage: {one.shot.what}",
        f"copied {in_words(status, at)}",
        at,
        planned=Reply("copied and looked at", copied),
        failed=Reply("it is lost", Asking(FootageLost, shot, (), at)),
        not_done="not looked at yet",
        whole=copied,
    )


def _due(
    one: ShotStanding,
    what: str,
    told: str,
    at: Moment,
    *,
    planned: Reply,
    failed: Reply,
    not_done: str,
    whole: Asking,
) -> Due:
    return Due(
        key=f"shot:{one.shot.id}",
        kind=DueKind.SHOT,
        about=Thing("shot", one.shot.id, one.shot.code),
        where=one.shot.code,
        what=what,
        told=told,
        due_at=at,
        as_planned=planned,
        failed=failed,
        not_done=Reply(not_done),
        whole=whole,
    )
