"""Journal groups, notes and what was read from files."""

from dataclasses import dataclass

from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class JournalGroup:
    """One wish. ``undoes_id`` names the group that this one took back (or, for a redo, put back)."""

    id: int
    recorded_at: Moment
    at: Moment
    action: str
    summary: str
    program: str
    head: str
    kind: str
    undoes_id: int | None


@dataclass(frozen=True, slots=True)
class Note:
    id: int
    at: Moment
    noun: str
    row_id: int | None
    text: str
    photo: str


@dataclass(frozen=True, slots=True)
class FileRow:
    """The form of one thing as it was last read from a file, to tell what changed where."""

    id: int
    noun: str
    key: str
    form: str
    read_at: Moment
    source: str
