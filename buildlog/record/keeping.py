"""Keeps the ledger file: makes it, knows it, upgrades it after a copy, backs it up, restores and checks it."""

import itertools
import os
import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from buildlog.errors import (
    AlreadyAFile,
    LedgerError,
    NewerLedger,
    NoLedgerThere,
    NotALedger,
    ReadOnlyLedger,
    UpgradeFailed,
)
from buildlog.record.head import APPLICATION_ID, HEAD, head_of
from buildlog.record.reading_from import read_uri
from buildlog.record.trouble import as_ledger_error


def create(path: Path, settings: dict[str, object]) -> None:
    """A new empty ledger with its one settings row; the file appears whole or not at all, and never over another."""
    from buildlog.record.tables import metadata
    from buildlog.record.tables.builds import Settings
    from buildlog.record.writer import writing_engine

    if os.path.islink(path):
        raise NoLedgerThere(f"{path} is a link that leads to no file: bring back what it leads to, or take it away.")
    fresh = path.with_name(f"{path.name}.{os.getpid()}.new")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        fresh.unlink(missing_ok=True)
        with closing(sqlite3.connect(fresh)) as connection:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        engine = writing_engine(fresh)
        with engine.begin() as connected:
            metadata.create_all(connected)
            connected.exec_driver_sql(
                "CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL, "
                "CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num))"
            )
            connected.exec_driver_sql("INSERT INTO alembic_version VALUES (?)", (HEAD,))
            connected.execute(metadata.tables[str(Settings.__tablename__)].insert().values(**settings))
        engine.dispose()
        _name(fresh, path)
    except OSError as error:
        raise NoLedgerThere(f"{path} cannot be made ({error.strerror}). Name another place with --ledger.") from error
    except Exception as error:
        raise as_ledger_error(error, path) from error
    finally:
        for left in ("", "-wal", "-shm"):
            with suppress(OSError):  # what was wrong has been told
                fresh.with_name(fresh.name + left).unlink(missing_ok=True)


def _name(fresh: Path, path: Path) -> None:
    """Where another program has made the ledger in the meantime, its own stands: it may have facts in it by now."""
    try:
        os.link(fresh, path)
    except FileExistsError:
        return
    except OSError:  # a disk without hard links
        fresh.rename(path)


def head_in(path: Path) -> str:
    """The revision of the ledger at path; NotALedger for anything else that lies there."""
    if path.is_dir():
        raise NoLedgerThere(f"{path} is a folder: name the ledger file in it with --ledger.")
    if path.is_fifo() or path.is_socket():  # opening one would wait for whoever is at its other end
        raise NotALedger(path)
    try:
        with closing(sqlite3.connect(read_uri(path), uri=True)) as connection:
            known = connection.execute("PRAGMA application_id").fetchone()[0]
            head = head_of(connection)
    except sqlite3.Error as error:
        raise as_ledger_error(error, path) from error
    if known != APPLICATION_ID or head is None:
        raise NotALedger(path)
    return head


def why_not_writable(path: Path) -> str | None:
    """Why the ledger can only be read, in words; None when it can be written."""
    if not os.access(path, os.W_OK):
        return "the file is write-protected"
    if not os.access(path.parent, os.W_OK):
        return "its folder is write-protected"
    return None


def upgrade(path: Path, backups: Path, stamp: str) -> Path | None:
    """Bring an older ledger to HEAD after making a copy; returns the copy, None when nothing was due."""
    head = head_in(path)
    if head == HEAD:
        return None
    if head > HEAD:
        raise NewerLedger(path, head)
    why = why_not_writable(path)
    if why:
        raise ReadOnlyLedger(path, f"{why}, and it needs an upgrade")
    copy = unused(backups / f"{path.stem}-before-{HEAD}-{stamp}.db")
    backup(path, copy)
    try:
        migrate(path, "head")
    except Exception as error:
        raise UpgradeFailed(path, copy, str(error)) from error
    return copy


def migrate(path: Path, target: str) -> None:
    """Run the migrations in one transaction, foreign keys off (a rebuilt table would take its children along)."""
    from importlib.resources import files

    from alembic import command
    from alembic.config import Config

    from buildlog.record.writer import writing_engine

    engine = writing_engine(path)
    config = Config()
    config.set_main_option("script_location", str(files("buildlog.migrations")))
    try:
        with engine.connect() as connection:
            driver = connection.connection.driver_connection
            assert driver is not None
            driver.execute("PRAGMA foreign_keys = OFF")
            with connection.begin():
                config.attributes["connection"] = connection
                command.upgrade(config, target)
                dangling = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
                if dangling:
                    raise LedgerError(f"the upgrade would leave {len(dangling)} dangling references")
    finally:
        engine.dispose()


def settle(path: Path) -> None:
    """Bring what was written into the file itself: a person may copy it without the files beside it.

    SQLite does so when the last connection that can write is closed. Where another program still has the ledger
    open, or the file is gone or broken by now, the rest stays in the file beside it, where it is as good.
    """
    with (
        suppress(sqlite3.Error),
        closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True)) as last,
    ):
        last.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()


def backup(path: Path, target: Path) -> None:
    """A copy of the ledger as it stands, also while others write; the target appears whole or not at all.

    Never over a file: it may be the live ledger itself, or one that another program has open.
    """
    if os.path.lexists(target):
        raise AlreadyAFile(target)
    part = target.with_name(target.name + ".part")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with (
            closing(sqlite3.connect(read_uri(path), uri=True)) as source,
            closing(sqlite3.connect(part)) as copy,
        ):
            source.backup(copy)
        part.replace(target)
    except sqlite3.Error as error:
        raise as_ledger_error(error, target) from error
    except OSError as error:
        raise NoLedgerThere(f"{target} cannot be written ({error.strerror}). Name another place.") from error
    finally:
        with suppress(OSError):  # what was wrong has been told
            part.unlink(missing_ok=True)


def unused(path: Path) -> Path:
    """The path, or with a number where there is such a file already: two copies in one second are both kept."""
    numbered = (path.with_name(f"{path.stem}-{number}{path.suffix}") for number in itertools.count(2))
    return path if not path.exists() else next(other for other in numbered if not other.exists())


def restore(path: Path, source: Path, backups: Path, stamp: str) -> Path:
    """Bring a backup back into the live file after a copy of what is there; returns that copy.

    An older backup is upgraded beside that copy first: who has the ledger open goes on with it at once.
    """
    head = head_in(source)
    if head > HEAD:
        raise NewerLedger(source, head)
    if os.path.samefile(source, path):
        raise LedgerError(f"{source} is this ledger itself, and was left as it was: name a copy of it.")
    before = unused(backups / f"{path.stem}-before-restore-{stamp}.db")
    backup(path, before)
    if head == HEAD:
        _bring_back(path, source)
        return before
    upgraded = unused(before.with_name(f"{before.name}.upgraded"))
    backup(source, upgraded)
    try:
        migrate(upgraded, "head")
        _bring_back(path, upgraded)
    finally:
        for beside in ("", "-wal", "-shm"):
            upgraded.with_name(upgraded.name + beside).unlink(missing_ok=True)
    return before


def _bring_back(path: Path, source: Path) -> None:
    try:
        with (
            closing(sqlite3.connect(read_uri(source), uri=True)) as good,
            closing(sqlite3.connect(path)) as live,
        ):
            good.backup(live)
    except sqlite3.Error as error:
        raise as_ledger_error(error, path) from error


def check(path: Path) -> list[str]:
    """What is wrong with the file, its rows and its accounts, a sentence each; empty when nothing is."""
    from buildlog.record.garbled import garbled_rows  # with the classes of all facts: opening waits for none of them
    from buildlog.record.rules import broken_rules

    found: list[str] = []
    with closing(sqlite3.connect(read_uri(path), uri=True)) as connection:
        try:
            found += [row[0] for row in connection.execute("PRAGMA integrity_check") if row[0] != "ok"]
            found += [
                f"{row[0]} {row[1]} refers to a missing {row[2]}"
                for row in connection.execute("PRAGMA foreign_key_check")
            ]
            found += garbled_rows(connection)
            found += [f"the rule {breach} is broken" for breach in broken_rules(connection)]
        except sqlite3.Error as error:  # of a broken file as much is told as can be read
            found.append(f"the rest cannot be read: the database said «{error}»")
    return found
