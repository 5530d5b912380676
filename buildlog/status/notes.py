"""Notes by the thing that they are about, and what such a thing is called where a note on it is typed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from buildlog.facts.naming import position_name
from buildlog.proposals.notes import BESIDE_NOUNS
from buildlog.proposals.nouns import FORMS, key_of
from buildlog.proposals.recorded import form_of_row, rows_named, table_of
from buildlog.status.forms import SnapshotRows

if TYPE_CHECKING:
    from collections.abc import Sequence

    from buildlog.facts.journal import Note
    from buildlog.facts.snapshot import Snapshot


def notes_of(snapshot: Snapshot, noun: str) -> dict[str, list[Note]]:
    """The notes on things of a noun, by key, the newest first."""
    rows = SnapshotRows(snapshot)
    found: dict[str, list[Note]] = {}
    for (about, row_id), notes in snapshot.notes_on.items():
        for row in rows.all(table_of(noun), id=row_id) if about == noun else ():
            found.setdefault(key_of(form_of_row(rows, noun, row)) if FORMS[noun].KEY else "", []).extend(notes)
    return found


def about_of(snapshot: Snapshot, noun: str, row_id: int) -> str:
    """As it is typed again: ``part FL07``, ``lot #12``, ``position TOE R.2``, ``print 8``; "" where none is taken."""
    return f"{noun} {_called(snapshot, noun, row_id)}".strip() if _is_taken(snapshot, noun, row_id) else ""


def key_typed(snapshot: Snapshot, noun: str, row_id: int) -> str:
    """As it is typed where the noun is known: ``FL07``, ``#12``, ``TOE R.2``; "" where none is taken."""
    return _called(snapshot, noun, row_id) if _is_taken(snapshot, noun, row_id) else ""


def _is_taken(snapshot: Snapshot, noun: str, row_id: int) -> bool:
    return (noun in FORMS or noun in BESIDE_NOUNS) and bool(_rows(snapshot, noun, row_id))


def id_of(snapshot: Snapshot, noun: str, key: str) -> int | None:
    """The row of the thing in use that a key names; None where there is none."""
    if not FORMS[noun].KEY:
        return 1
    found = rows_named(SnapshotRows(snapshot), noun, key)
    return int(found[-1].id) if found else None


def build_of(snapshot: Snapshot, noun: str, row_id: int | None) -> int | None:
    """The build that the thing a note is about belongs to; None for what is shared, or no thing at all."""
    if row_id is None:
        return None
    if noun == "build":
        return row_id
    if noun in ("print", "print file"):
        lines = (snapshot.lines_of_job if noun == "print" else snapshot.lines_of_file).get(row_id, ())
        builds = {snapshot.part[line.part_id].build_id for line in lines if line.part_id is not None}
        return builds.pop() if len(builds) == 1 else None
    found = _rows(snapshot, noun, row_id)
    if not found:
        return None
    row = found[0]
    if (build_id := getattr(row, "build_id", None)) is not None:
        return int(build_id)
    for owner in ("part", "assembly", "episode"):
        if (owner_id := getattr(row, f"{owner}_id", None)) is not None:
            return build_of(snapshot, owner, int(owner_id))
    return None


def _called(snapshot: Snapshot, noun: str, row_id: int) -> str:
    if noun == "position":
        return position_name(snapshot, row_id)
    if noun == "print":
        return str(row_id)
    row = _rows(snapshot, noun, row_id)[0]
    if noun == "lot":
        return row.mark or f"#{row_id}"
    return str(row.code) if noun == "order" else key_of(form_of_row(SnapshotRows(snapshot), noun, row))


def _rows(snapshot: Snapshot, noun: str, row_id: int) -> Sequence[Any]:
    """The one row, or none."""
    return SnapshotRows(snapshot).all("job" if noun == "print" else table_of(noun), id=row_id)
