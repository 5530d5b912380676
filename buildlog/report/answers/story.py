"""Shots, questions of viewers, promises, as tables."""

from buildlog.report.table import Column, Table
from buildlog.status.shots import ShotStanding, shots_standing
from buildlog.status.status import Status
from buildlog.wording import day


def shots(status: Status, everything: bool = False, build_id: int | None = None) -> Table:
    """Shots of which something is still to be done, with ``everything`` the others too."""
    rows = tuple(
        (
            one.shot.code,
            one.planned.number if one.planned is not None else None,
            one.shot.what,
            before(one),
            one.state.value,
            one.shot.filmed_at,
            one.carried_over,
        )
        for one in shots_standing(status.snapshot, status.now)
        if (everything or one.is_open) and build_id in (None, one.shot.build_id)
    )
    zone = status.snapshot.settings.home_zone
    columns = (
        Column("code", "Shot"),
        Column("episode", "Episode", right=True),
        Column("what", "What"),
        Column("before", "Before"),
        Column("state", "How far"),
        Column("filmed_at", "Filmed", lambda at: day(at, zone) if at else ""),
        Column("carried_over", "", lambda carried: "carried over" if carried else ""),
    )
    return Table("shots", "Shots", columns, rows, "No shot is to be filmed or looked at.")


def before(one: ShotStanding) -> str:
    """``bond the ring (ABR-3), L``; empty where it comes before no step."""
    if one.step is None:
        return ""
    side = f", {one.shot.side.value}" if one.shot.side else ""
    return f"{one.step.name} ({one.step.code}){side}"


def viewers(status: Status, everything: bool = False, build_id: int | None = None) -> Table:
    """What viewers asked and nobody has answered, with ``everything`` the answered ones too."""
    snapshot = status.snapshot
    numbers = {episode.id: episode.number for episode in snapshot.episodes}
    rows = tuple(
        (
            q.code,
            q.who,
            numbers.get(q.asked_episode_id or 0),
            q.text,
            *((q.answer, numbers.get(q.answered_episode_id or 0)) if everything else ()),
        )
        for q in snapshot.viewer_questions
        if q.retired_at is None and (everything or q.answered_at is None) and build_id in (None, q.build_id)
    )
    columns = (
        Column("code", "Question"),
        Column("who", "Who"),
        Column("asked_in", "Under episode", right=True),
        Column("text", "Asked"),
        *((Column("answer", "Answer"), Column("answered_in", "Answered in", right=True)) if everything else ()),
    )
    return Table("viewers", "What viewers asked", columns, rows, "No viewer waits for an answer.")


def promises(status: Status, everything: bool = False, build_id: int | None = None) -> Table:
    """Who supplied what and was promised what, as long as it is not kept; with ``everything`` kept ones too."""
    zone = status.snapshot.settings.home_zone
    rows = tuple(
        (p.code, p.who, p.supplied, p.promised, p.due_at, *((p.kept_at,) if everything else ()))
        for p in status.snapshot.promises
        if p.retired_at is None and (everything or p.kept_at is None) and build_id in (None, p.build_id)
    )
    columns = (
        Column("code", "Promise"),
        Column("who", "Who"),
        Column("supplied", "Supplied"),
        Column("promised", "Was promised"),
        Column("due_at", "By", lambda at: day(at, zone) if at else ""),
        *((Column("kept_at", "Kept", lambda at: day(at, zone) if at else ""),) if everything else ()),
    )
    return Table("promises", "Who supplied what, and was promised what", columns, rows, "No promise is open.")
