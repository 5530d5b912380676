"""A ledger as the faces and the tests hold it: reader, writer, keeping, clock and folders."""

import os
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from buildlog import locations
from buildlog.errors import BuildlogError, DamagedLedger, InTheFuture, NotFound, ReadOnlyLedger
from buildlog.record import keeping
from buildlog.record.trouble import as_ledger_error
from buildlog.terms import Moment, moment
from buildlog.watching import went_on

if TYPE_CHECKING:
    from buildlog.facts.journal import JournalGroup
    from buildlog.facts.snapshot import Snapshot
    from buildlog.record.reader import Reader
    from buildlog.record.writer import Recorded, Writer

USUAL_SETTINGS: dict[str, object] = {
    "home_zone": "Europe/Berlin",
    "currency": "EUR",
    "kwh_price_minor": 30,
    "not_building_percent": 40,
    "day_starts_minutes": 480,
    "day_ends_minutes": 1380,
}

Clock = Callable[[], datetime]


def system_clock() -> datetime:
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a wish did: the sentence, its journal group (None for a dry run or no change), the rows written."""

    sentences: tuple[str, ...]
    group_id: int | None
    entries: tuple[tuple[str, int, str | None, str | None], ...]


class Ledger:
    """An open ledger. Reading needs no SQLAlchemy; the first wish loads it.

    ``risk`` is what about its folder may cost data, in a sentence.
    """

    def __init__(self, path: Path, backups: Path, clock: Clock = system_clock) -> None:
        self.path, self.backups, self.clock = path, backups, clock
        self.program = os.urandom(16).hex()
        self.why_read_only = keeping.why_not_writable(path)
        self.risk = locations.folder_risk(path.parent)
        self._writer: Writer | None = None

    @cached_property
    def reader(self) -> "Reader":
        """The reading side, loaded when first needed: the first frame stands before the classes of all facts do."""
        from buildlog.record.reader import Reader

        return Reader(self.path)

    @classmethod
    def open(cls, path: Path | None = None, backups: Path | None = None, clock: Clock = system_clock) -> "Ledger":
        """The ledger at path (the usual one when left out), made when there is none, upgraded when it is older."""
        path = path or locations.ledger_path()
        backups = backups or locations.backups_folder(path)
        if not os.path.exists(path):  # Path.exists raises for a name that is too long
            keeping.create(path, USUAL_SETTINGS)
        keeping.upgrade(path, backups, _stamp(clock))
        return cls(path, backups, clock)

    def close(self) -> None:
        if "reader" in vars(self):
            self.reader.close()
        if self._writer is not None:
            self._writer.close()
            keeping.settle(self.path)

    def now(self) -> Moment:
        return moment(self.clock())

    def snapshot(self, afresh: bool = False) -> "Snapshot":
        """What the record says. What was read before is held; ``afresh``, all that was not read as a whole is."""
        from buildlog.reference import reference

        with self.understood():
            return self.reader.snapshot(reference(), afresh)

    def of_printers(self, now: Moment) -> "Snapshot":
        """Only what tells what is on the printers at ``now``: there at once, however long the record is."""
        from buildlog.reference import reference

        with self.understood():
            return self.reader.of_printers(reference(), now)

    @contextmanager
    def understood(self) -> Iterator[None]:
        """While the record is read and understood: what is wrong with the file or its rows is told as that.

        Rows that no program of ours has written can trip anything up; only then `check` looks for them.
        """
        try:
            yield
        except BuildlogError:
            raise
        except sqlite3.Error as error:
            self.reader.same_file()
            raise as_ledger_error(error, self.path) from error
        except Exception as error:
            found = self.check()
            if not found:
                raise
            raise DamagedLedger(self.path, found[0].rstrip(".")) from error

    def home_zone(self) -> str:
        """The zone in which moments are typed and weeks are cut."""
        with self.understood():
            return self.reader.settings().home_zone

    def version(self) -> int:
        """Changes whenever this or another program has committed."""
        with self.understood():
            return self.reader.version()

    def record(self, wish: Any, at: Moment | None = None, dry_run: bool = False) -> Outcome:
        """Carry one wish out as of ``at`` (now when left out)."""
        return self.record_all([(wish, at)], "", dry_run)

    def record_all(self, wishes: Iterable[tuple[Any, Moment | None]], summary: str, dry_run: bool = False) -> Outcome:
        """Carry many wishes out, each as of its moment, as one unit of work and one journal group."""
        from buildlog.facts.journal import SEVERAL
        from buildlog.proposals.wishes import action_name
        from buildlog.record.actions import perform
        from buildlog.record.writer import Work
        from buildlog.reference import reference

        now = self.now()
        listed = list(wishes)
        for _, at in listed:
            if at is not None and at > now:
                raise InTheFuture(at)
        action = action_name(type(listed[0][0])) if len(listed) == 1 else SEVERAL
        first = (listed[0][1] if listed else None) or now
        with self.understood(), self.writer().work(action, summary, first, now, dry_run) as opened:
            opened.work.session.info["reference"] = reference()
            sentences: list[str] = []
            for wish, at in listed:
                went_on(len(sentences), len(listed))
                sentences.append(perform(wish, Work(opened.work.session, at or now, now)))
            opened.summary = summary or " ".join(sentences)[:200]
        return Outcome(tuple(sentences), opened.group_id, tuple(opened.entries))

    def undo(self, group_id: int | None = None, own: bool = False) -> "Recorded":
        from buildlog.record.undo import undo

        return undo(self.writer(), self.now(), group_id, own)

    def redo(self) -> "Recorded":
        from buildlog.record.undo import redo

        return redo(self.writer(), self.now())

    def journal(self, newest: int = 100) -> "tuple[JournalGroup, ...]":
        with self.understood():
            return self.reader.groups(newest)

    def journal_rows(self, group_id: int) -> list[tuple[str, int, str | None, str | None]]:
        """(table, row id, before, after) of a group, images as stored JSON; NotFound for no such group."""
        rows = self.reader.entries(group_id)
        if not rows:
            raise NotFound("journal group", str(group_id))
        return rows

    def backup(self, target: Path | None = None) -> Path:
        """A copy into the backups folder, or to the named place."""
        target = target or keeping.unused(self.backups / f"{self.path.stem}-{_stamp(self.clock)}.db")
        keeping.backup(self.path, target)
        return target

    def restore(self, source: Path) -> Path:
        """Bring a backup back into this ledger; returns the copy of what was there before."""
        if self.why_read_only:
            raise ReadOnlyLedger(self.path, self.why_read_only)
        self.reader.same_file()
        return keeping.restore(self.path, source, self.backups, _stamp(self.clock))

    def check(self) -> list[str]:
        return keeping.check(self.path)

    def writer(self) -> "Writer":
        """The writing side, loaded when first needed."""
        if self.why_read_only:
            raise ReadOnlyLedger(self.path, self.why_read_only)
        self.reader.same_file()
        if self._writer is None:
            from buildlog.record.writer import Writer

            self._writer = Writer(self.path, self.program)
        return self._writer


def _stamp(clock: Clock) -> str:
    """Now, as it stands in the name of a copy."""
    return clock().strftime("%Y%m%dT%H%M%S")
