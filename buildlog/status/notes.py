"""Notes by the thing that they are about, for screens that list things."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.nouns import FORMS, key_of
from buildlog.proposals.recorded import form_of_row, table_of
from buildlog.status.forms import SnapshotRows

if TYPE_CHECKING:
    from buildlog.facts.journal import Note
    from buildlog.facts.snapshot import Snapshot


def notes_of(snapshot: Snapshot, noun: str) -> dict[str, list[Note]]:
    """The notes on things of a noun, by key, the newest first."""
    rows = SnapshotRows(snapshot)
    found: dict[str, list[Note]] = {}
    for note in sorted(snapshot.notes, key=lambda note: (note.at, note.id), reverse=True):
        if note.noun == noun and note.row_id is not None:
            for row in rows.all(table_of(noun), id=note.row_id):
                found.setdefault(key_of(form_of_row(rows, noun, row)) if FORMS[noun].KEY else "", []).append(note)
    return found
