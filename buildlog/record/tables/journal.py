"""The journal, notes on anything, and what was last read from files."""

from sqlalchemy import Index
from sqlmodel import Field

from buildlog.record.tables.columns import Row, maybe_ref, ref


class JournalGroup(Row, table=True):
    """One wish. ``undoes_id`` names the group that this one took back (or, for a redo, put back)."""

    __tablename__ = "journal_group"

    recorded_at: str
    at: str
    action: str
    summary: str
    program: str
    head: str
    kind: str = "wish"
    undoes_id: int | None = maybe_ref("journal_group")


class JournalEntry(Row, table=True):
    """One row that a group wrote, before and after, as stored (JSON)."""

    __tablename__ = "journal_entry"
    __table_args__ = (Index("ix_journal_entry_row", "table_name", "row_id"),)

    group_id: int = ref("journal_group")
    table_name: str
    row_id: int
    before: str | None = None
    after: str | None = None


class Note(Row, table=True):
    __tablename__ = "note"

    at: str
    noun: str
    row_id: int | None = None
    text: str
    photo: str = ""


class FileRow(Row, table=True):
    """The form of one thing as it was last read from a file, to tell what changed where."""

    __tablename__ = "file_row"
    __table_args__ = (Index("ux_file_row", "noun", "key", unique=True),)

    noun: str
    key: str
    form: str
    read_at: str
    source: str = Field(default="")
