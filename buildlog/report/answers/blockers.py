"""What blocks what: leaf blockers of everything, or all that one position is held by with the ways to it."""

from collections.abc import Callable

from buildlog.facts.naming import position_name
from buildlog.report.table import Column, Table
from buildlog.status.blocker import Blocker
from buildlog.status.status import Status
from buildlog.wording import hours, near

_POSITION = Column("position", "Position")


def _columns(status: Status) -> tuple[Column, ...]:
    zone = status.snapshot.settings.home_zone
    until: Callable[[str], str] = lambda at: near(at, status.now, zone)  # type: ignore[arg-type]  # noqa: E731
    return (
        Column("kind", "Blocker"),
        Column("pieces", "Pieces", lambda n: str(n) if n else "", right=True),
        Column("print_minutes", "Print", lambda m: hours(m) if m else "", right=True),
        Column("until", "Until", until),
        Column("text", "What"),
    )


def _cells(blocker: Blocker) -> tuple[object, ...]:
    return (blocker.kind.value, blocker.pieces, round(blocker.print_minutes), blocker.until, blocker.text)


def all_blockers(status: Status) -> Table:
    """Every leaf blocker once, by position in the order of the record."""
    rows = tuple(
        (position_name(status.snapshot, position_id), *_cells(blocker))
        for position_id in sorted(status.blockers.leaves)
        for blocker in status.blockers.leaves[position_id]
    )
    return Table("blockers", "What blocks what", (_POSITION, *_columns(status)), rows, "Nothing blocks anything.")


def blockers_of(status: Status, position_id: int) -> Table:
    """All that holds one position, nearest first, with the way down to it."""
    name = position_name(status.snapshot, position_id)
    rows = tuple((_way(status, links), *_cells(blocker)) for blocker, links in status.blockers.closure(position_id))
    columns = (Column("way", "Way"), *_columns(status))
    return Table("blockers", f"What blocks {name}", columns, rows, f"{name} is ready.")


def _way(status: Status, links: tuple[tuple[int, bool], ...]) -> str:
    """``LEG-F L › TOE L.2``, a wait as ``⇢``."""
    way = ""
    for position_id, by_wait in links:
        sign = (" ⇢ " if by_wait else " › ") if way else ("⇢ " if by_wait else "")
        way += sign + position_name(status.snapshot, position_id)
    return way or "itself"
