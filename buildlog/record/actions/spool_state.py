"""Whether a spool is sealed, open, emptied or not there yet at a moment."""

from sqlmodel import col

from buildlog.errors import Refused
from buildlog.record.actions.moments import local
from buildlog.record.tables.stock import Spool, SpoolEntry
from buildlog.record.writer import Work
from buildlog.terms import Moment, SpoolEntryKind

SEALING = (SpoolEntryKind.OPENED, SpoolEntryKind.SEALED)


def is_open(work: Work, spool: Spool, at: str) -> bool:
    """A spool comes sealed; the last opening or sealing tells."""
    entries = [e for e in entries_of(work, spool, *SEALING) if e.at <= at]
    last = max(entries, key=lambda entry: (entry.at, entry.id or 0), default=None)
    return last is not None and last.kind is SpoolEntryKind.OPENED


def entries_of(work: Work, spool: Spool, *kinds: SpoolEntryKind) -> list[SpoolEntry]:
    return work.all(SpoolEntry, col(SpoolEntry.kind).in_(kinds), spool_id=spool.id)


def note(work: Work, spool: Spool, kind: SpoolEntryKind, at: Moment, cause: str = "") -> None:
    """An entry that weighs and draws nothing."""
    assert spool.id is not None
    work.add(SpoolEntry(spool_id=spool.id, at=at, kind=kind, cause=cause))


def open_if_sealed(work: Work, spool: Spool, at: Moment) -> bool:
    if is_open(work, spool, at):
        return False
    note(work, spool, SpoolEntryKind.OPENED, at)
    return True


def refuse_not_there(work: Work, spool: Spool, at: str) -> None:
    """Nothing happens to a spool before it was received."""
    if at < spool.received_at:
        raise Refused(
            f"{spool.code} was received {local(work, spool.received_at)}: this cannot have happened before. "
            "Name a later time, or change when it was received."
        )


def refuse_unusable(work: Work, spool: Spool, at: str) -> None:
    """No filament comes from a spool that is not there yet, retired or emptied."""
    refuse_not_there(work, spool, at)
    if spool.retired_at is not None and spool.retired_at <= at:
        raise Refused(f"{spool.code} is retired since {local(work, spool.retired_at)}: take another spool.")
    emptied = [e.at for e in entries_of(work, spool, SpoolEntryKind.EMPTIED) if e.at <= at]
    if emptied:
        raise Refused(f"{spool.code} is empty since {local(work, max(emptied))}: take another spool.")
