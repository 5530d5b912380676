"""What the week's text says of shots, viewers and promises: what happened in a stretch of time."""

from collections.abc import Iterator

from buildlog.facts.snapshot import Snapshot
from buildlog.facts.story import Shot
from buildlog.report.period import Period
from buildlog.status.shots import carried_over_from


def story_told(snapshot: Snapshot, build_id: int, period: Period) -> tuple[tuple[str, list[str]], ...]:
    """(heading, lines), from dated facts alone."""
    shots = [s for s in snapshot.shots if s.build_id == build_id and s.retired_at is None]
    carried = carried_over_from(snapshot, period.episode) if period.episode is not None else ()
    return (
        ("Filmed", [_named(s) for s in shots if period.holds(s.filmed_at)]),
        ("Footage copied and looked at", [_named(s) for s in shots if period.holds(s.safe_at)]),
        ("Gone on without", [_overruled(s) for s in shots if period.holds(s.overruled_at)]),
        ("Shots carried over", [_named(s) for s in carried]),
        ("Viewers asked", list(_asked(snapshot, build_id, period))),
        ("Viewers were answered", list(_answered(snapshot, build_id, period))),
        ("Supplied, and promised for it", list(_promised(snapshot, build_id, period))),
        ("Promises kept", list(_kept(snapshot, build_id, period))),
    )


def _named(shot: Shot) -> str:
    return f"{shot.code} {shot.what}"


def _overruled(shot: Shot) -> str:
    return f"{_named(shot)}{f': {shot.overruled_why}' if shot.overruled_why else ''}"


def _asked(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    numbers = {episode.id: episode.number for episode in snapshot.episodes}
    for q in snapshot.viewer_questions:
        if q.build_id == build_id and q.retired_at is None and period.holds(q.asked_at):
            under = f", under episode {numbers[q.asked_episode_id]}" if q.asked_episode_id is not None else ""
            yield f"{q.who or 'somebody'}{under}: {q.text}"


def _answered(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    """By the episode that it was answered in where one was named; else by the moment."""
    for q in snapshot.viewer_questions:
        if q.build_id != build_id or q.retired_at is not None or q.answered_at is None:
            continue
        named = period.episode is not None and q.answered_episode_id is not None
        here = q.answered_episode_id == period.episode.id if named and period.episode else period.holds(q.answered_at)
        if here and q.answered_at <= period.until:
            yield f"{q.who or 'somebody'} asked: {q.text} — {q.answer}"


def _promised(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    for p in snapshot.promises:
        if p.build_id == build_id and p.retired_at is None and period.holds(p.promised_at):
            yield f"{p.who}: {p.supplied or 'help'}, was promised {p.promised}"


def _kept(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    for p in snapshot.promises:
        if p.build_id == build_id and p.retired_at is None and period.holds(p.kept_at):
            yield f"{p.who}: {p.promised}{f', for {p.supplied}' if p.supplied else ''}"
