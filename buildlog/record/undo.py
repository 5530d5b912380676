"""Takes a journal group back, or puts it back: the rows as they were, unless something stands on them."""

import json
from typing import Any

from sqlalchemy.exc import IntegrityError
from sqlmodel import Session, col, select

from buildlog.errors import NothingToUndo, UndoRefused
from buildlog.facts.journal import REDO, UNDO, Standing, standing_of
from buildlog.record.head import HEAD
from buildlog.record.rules import broken_rules
from buildlog.record.tables.journal import JournalEntry, JournalGroup
from buildlog.record.writer import Recorded, Writer
from buildlog.terms import Moment
from buildlog.watching import went_on


def standing(session: Session) -> Standing[JournalGroup]:
    return standing_of(session.exec(select(JournalGroup).order_by(col(JournalGroup.id))).all())


def undo(writer: Writer, now: Moment, group_id: int | None = None, own: bool = False) -> Recorded:
    """Take back the newest standing group (of this program only, with ``own``), or the named one."""
    with writer.session() as session:
        wishes = standing(session).wishes
        if group_id is not None:
            wishes = tuple(g for g in wishes if g.id == group_id)
        elif own:
            wishes = tuple(g for g in wishes if g.program == writer.program)
        if not wishes:
            raise NothingToUndo("undo" if group_id is None else f"undo in group {group_id}")
        _refuse_written_later(session, wishes[-1])
        return _turn(session, writer, wishes[-1], UNDO, now)


def redo(writer: Writer, now: Moment) -> Recorded:
    """Put back the group that was taken back last; a new wish since then ends redo."""
    with writer.session() as session:
        redoable = standing(session).redoable
        if not redoable:
            raise NothingToUndo("redo")
        return _turn(session, writer, redoable[-1], REDO, now)


def _refuse_written_later(session: Session, group: JournalGroup) -> None:
    found = session.connection().exec_driver_sql(
        "SELECT DISTINCT later.group_id FROM journal_entry mine JOIN journal_entry later"
        " ON later.table_name = mine.table_name AND later.row_id = mine.row_id"
        " WHERE mine.group_id = ? AND later.group_id > ?",
        (group.id, group.id),
    )
    _refuse_over(session, group, {int(row[0]) for row in found}, "changed the same thing later")


def _refuse_over(session: Session, group: JournalGroup, group_ids: set[int], why: str) -> None:
    for other in standing(session).wishes:
        if other.id in group_ids:
            raise UndoRefused(
                f"«{group.summary}» cannot be taken back: «{other.summary}» (group {other.id}) {why}. "
                f"Take that back first: undo {other.id}."
            )


def _turn(session: Session, writer: Writer, group: JournalGroup, kind: str, now: Moment) -> Recorded:
    if group.head != HEAD:
        raise UndoRefused(
            f"«{group.summary}» is from before an upgrade: it can be read, not taken back. Record the opposite."
        )
    connection = session.connection()
    known = broken_rules(connection)
    query = select(JournalEntry).where(col(JournalEntry.group_id) == group.id)
    entries = session.exec(query.order_by(col(JournalEntry.id))).all()
    turned = [(e.table_name, e.row_id, e.before, e.after) for e in entries]
    if kind == UNDO:
        turned = [(table, row_id, after, before) for table, row_id, before, after in reversed(turned)]
    _put_all(session, group, {(table, row_id): image for table, row_id, _, image in turned})
    _refuse_dangling(session, group)
    new = [rule for rule in broken_rules(connection) if rule not in known]
    if new:
        raise UndoRefused(
            f"«{group.summary}» cannot be turned back or forth: the rule {new[0]} would be broken. "
            "Take back first what came after it."
        )
    return _note(session, writer, group, kind, now, turned)


def _note(
    session: Session,
    writer: Writer,
    group: JournalGroup,
    kind: str,
    now: Moment,
    turned: list[tuple[str, int, str | None, str | None]],
) -> Recorded:
    """The turning is a journal group of its own."""
    mark = JournalGroup(
        recorded_at=now,
        at=now,
        action=kind,
        summary=f"{kind}: {group.summary}",
        program=writer.program,
        head=HEAD,
        kind=kind,
        undoes_id=group.id,
    )
    session.add(mark)
    session.flush()
    for table, row_id, before, after in turned:
        entry = JournalEntry(group_id=mark.id or 0, table_name=table, row_id=row_id, before=before, after=after)
        session.add(entry)
    session.flush()
    return Recorded(mark.id, group.summary, len(turned))


def _put_all(session: Session, group: JournalGroup, images: dict[tuple[str, int], str | None]) -> None:
    """Make each row what its image says, or take it away. All go before the first comes back: two of them may have
    changed what only one of them can have, as the mark of a piece.
    """
    connection = session.connection()
    for table, row_id in images:
        connection.exec_driver_sql(f'DELETE FROM "{table}" WHERE id = ?', (row_id,))
    for done, ((table, _), image) in enumerate(images.items()):
        went_on(done, len(images))
        if image is None:
            continue
        values = json.loads(image)
        names, marks = ", ".join(f'"{name}"' for name in values), ", ".join("?" for _ in values)
        try:
            connection.exec_driver_sql(f'INSERT INTO "{table}" ({names}) VALUES ({marks})', tuple(values.values()))
        except IntegrityError as error:
            _refuse_taken(session, group, table, values, str(error.orig))
            raise


def _refuse_taken(session: Session, group: JournalGroup, table: str, values: dict[str, Any], said: str) -> None:
    """Only one row can have this, and another has taken it since: SQLite says which columns it is."""
    columns = [
        name.strip().removeprefix(f"{table}.") for name in said.partition("UNIQUE constraint failed:")[2].split(",")
    ]
    if not all(name in values for name in columns):
        return
    where = " AND ".join(f'"{name}" = ?' for name in columns)
    found = session.connection().exec_driver_sql(
        "SELECT group_id FROM journal_entry WHERE table_name = ? AND group_id > ?"
        f' AND row_id IN (SELECT id FROM "{table}" WHERE {where})',
        (table, group.id, *(values[name] for name in columns)),
    )
    _refuse_over(session, group, {int(row[0]) for row in found}, "has taken its place")


def _refuse_dangling(session: Session, group: JournalGroup) -> None:
    dangling = session.connection().exec_driver_sql("PRAGMA foreign_key_check").all()
    if not dangling:
        return
    table, row_id = str(dangling[0][0]), int(dangling[0][1])
    found = session.connection().exec_driver_sql(
        "SELECT group_id FROM journal_entry WHERE table_name = ? AND row_id = ?", (table, row_id)
    )
    _refuse_over(session, group, {int(row[0]) for row in found}, "stands on it")
    raise UndoRefused(f"«{group.summary}» cannot be taken back: {table} {row_id} stands on it. Take that away first.")
