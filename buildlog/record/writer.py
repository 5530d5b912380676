"""Writes the record: one unit of work, one transaction, one journal group, rolled back unless it completes."""

import difflib
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from sqlalchemy import CursorResult, Engine, create_engine, event
from sqlalchemy.exc import DBAPIError, IntegrityError
from sqlalchemy.pool import NullPool
from sqlmodel import Session, col, select

from buildlog.errors import LedgerChanged, NotFound, Refused
from buildlog.facts.reference_data import Reference
from buildlog.record.head import HEAD, head_of
from buildlog.record.journal import Journal
from buildlog.record.reads import Reads
from buildlog.record.tables import Row
from buildlog.record.tables.journal import JournalGroup
from buildlog.record.trouble import as_ledger_error
from buildlog.terms import Moment
from buildlog.watching import before_it_counts

T = TypeVar("T", bound=Row)


@dataclass(frozen=True, slots=True)
class Recorded:
    """What a unit of work wrote: its group (None when nothing changed) and how many rows."""

    group_id: int | None
    summary: str
    rows: int


class Work:
    """A unit of work as an action sees it: the session, the moment of the fact and of its recording."""

    def __init__(self, session: Session, at: Moment, recorded_at: Moment) -> None:
        self.session, self.at, self.recorded_at = session, at, recorded_at
        self._reads: Reads = session.info["reads"]

    @property
    def reference(self) -> Reference:
        """Usual numbers and polymers, handed in by the ledger for all units of work on one session."""
        found: Reference = self.session.info["reference"]
        return found

    def add(self, row: T) -> T:
        """Write a new row; it has its id at once."""
        self._reads.added(row)
        self.session.add(row)
        return row

    def change(self, row: Row, **values: object) -> None:
        """Give columns other values; what stands there already is left alone."""
        changed = {name: value for name, value in values.items() if getattr(row, name) != value}
        for name, value in changed.items():
            setattr(row, name, value)
        if changed:
            self._reads.changed(row)

    def delete(self, row: Row) -> None:
        """Take a row out at once: the session would write new rows before it deletes, and two would stand there."""
        self.session.flush()
        self.session.delete(row)
        self._reads.changed(row, is_gone=True)
        self.session.flush()

    def get(self, table: type[T], row_id: int | None) -> T:
        """The row of that id; a missing one is a fault of the program."""
        row: T | None = self._reads.row(table, row_id)
        if row is None:
            raise LookupError(f"{table.__name__} {row_id} is not in the record")
        return row

    def all(self, table: type[T], *where: Any, order_by: Any = None, **equal: Any) -> list[T]:
        """Rows whose columns are as named (``lot_id=3, until_at=None``) and for which the conditions hold."""
        return self._reads.rows(table, where, equal, order_by)

    def first(self, table: type[T], *where: Any, order_by: Any = None, **equal: Any) -> T | None:
        found = self.all(table, *where, order_by=order_by, **equal)
        return found[0] if found else None

    def ask(self, query: str, **values: Any) -> CursorResult[*tuple[Any, ...]]:
        """A question in SQL text, after all that was written so far has gone to the file."""
        self.session.flush()
        return self.session.connection().exec_driver_sql(query, values)

    def by_code(self, table: type[T], code: str, noun: str = "") -> T:
        """The row of that code, retired ones too; NotFound names near codes."""
        wanted = code.strip().upper()
        column = col(table.code)  # type: ignore[attr-defined]  # asked of tables with a code only
        row = self.first(table, code=wanted)
        if row is None:
            self.session.flush()
            codes = [str(known) for known in self.session.exec(select(column)).all()]
            near = tuple(difflib.get_close_matches(wanted, codes, 3))
            raise NotFound(noun or str(table.__tablename__).replace("_", " "), wanted, near)
        return row


def _refuse_bulk(state: Any) -> None:
    if state.is_insert or state.is_update or state.is_delete:
        raise RuntimeError("bulk statements pass the journal by: change rows one by one")


class Writer:
    """Opens units of work on one ledger file. ``program`` tells its own groups from other programs'."""

    def __init__(self, path: Path, program: str) -> None:
        self.path, self.program = path, program
        self._engine = writing_engine(path)

    def close(self) -> None:
        self._engine.dispose()

    @contextmanager
    def session(self) -> Iterator[Session]:
        """A session in BEGIN IMMEDIATE; commits at the end, rolls back on any error, errors made plain."""
        session = Session(self._engine, expire_on_commit=False, autoflush=False)
        session.info["reads"] = Reads(session)
        event.listen(session, "do_orm_execute", _refuse_bulk)
        try:
            with session.begin():
                if head_of(session.connection().connection.driver_connection) != HEAD:
                    raise LedgerChanged(self.path)
                # rows go to the file table by table, not in the order in which they refer to each other
                session.connection().exec_driver_sql("PRAGMA defer_foreign_keys = ON")
                yield session
                before_it_counts()
        except IntegrityError as error:
            raise Refused(
                f"The record does not allow this: {error.orig}. Nothing was changed. "
                "Type it otherwise; a form should have said so before."
            ) from error
        except (DBAPIError, sqlite3.Error) as error:
            raise as_ledger_error(error, self.path) from error
        finally:
            session.close()

    @contextmanager
    def work(
        self, action: str, summary: str, at: Moment, recorded_at: Moment, dry_run: bool = False
    ) -> Iterator["OpenWork"]:
        """One unit of work under one journal group; a dry run shows what it would write and rolls back."""
        with self.session() as session:
            journal = Journal(session)
            opened = OpenWork(Work(session, at, recorded_at), summary)
            yield opened
            session.flush()
            opened.entries = journal.entries()
            if opened.entries and not dry_run:
                group = JournalGroup(
                    recorded_at=recorded_at,
                    at=at,
                    action=action,
                    summary=opened.summary,
                    program=self.program,
                    head=HEAD,
                )
                opened.group_id = journal.write(group, opened.entries)
            if dry_run:
                session.rollback()


class OpenWork:
    """A unit of work while it runs, and what it wrote afterwards."""

    def __init__(self, work: Work, summary: str) -> None:
        self.work, self.summary = work, summary
        self.group_id: int | None = None
        self.entries: list[tuple[str, int, str | None, str | None]] = []


def writing_engine(path: Path) -> Engine:
    def connect() -> sqlite3.Connection:
        where = f"{path.absolute().as_uri()}?mode=rw"  # never makes a file: an empty one would pass for a new ledger
        connection = sqlite3.connect(where, uri=True, isolation_level=None, timeout=5, check_same_thread=False)
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA synchronous = FULL")
        return connection

    engine = create_engine("sqlite://", creator=connect, poolclass=NullPool, hide_parameters=True)
    event.listen(engine, "begin", lambda connection: connection.exec_driver_sql("BEGIN IMMEDIATE"))
    return engine
