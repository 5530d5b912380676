"""Keeps the ledger file: makes it, knows it, upgrades it after a copy, backs it up, restores and checks it."""

import os
import sqlite3
from contextlib import closing, suppress
from importlib.resources import files
from pathlib import Path

from buildlog.errors import LedgerError, NewerLedger, NotALedger, ReadOnlyLedger, UpgradeFailed
from buildlog.record.head import APPLICATION_ID, HEAD, head_of
from buildlog.record.rules import broken_rules
from buildlog.record.trouble import as_ledger_error


def create(path: Path, settings: dict[str, object]) -> None:
    """A new empty ledger with its one settings row; the file appears whole or not at all."""
    from buildlog.record.tables import metadata
    from buildlog.record.tables.builds import Settings
    from buildlog.record.writer import writing_engine

    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = path.with_name(path.name + ".new")
    try:
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
        fresh.rename(path)
    except OSError as error:
        raise LedgerError(f"{path} cannot be made ({error.strerror}). Choose another place.") from error
    except Exception as error:
        raise as_ledger_error(error, path) from error
    finally:
        fresh.unlink(missing_ok=True)


def head_in(path: Path) -> str:
    """The revision of the ledger at path; NotALedger for anything else that lies there."""
    try:
        with closing(sqlite3.connect(read_uri(path), uri=True)) as connection:
            known = connection.execute("PRAGMA application_id").fetchone()[0]
            head = head_of(connection)
    except sqlite3.Error as error:
        raise as_ledger_error(error, path) from error
    if known != APPLICATION_ID or head is None:
        raise NotALedger(path)
    return head


def read_uri(path: Path) -> str:
    """How to open for reading: without a side file where none can be written."""
    still = "" if os.access(path.parent, os.W_OK) else "&immutable=1"
    return f"{path.absolute().as_uri()}?mode=ro{still}"


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
    copy = backups / f"{path.stem}-before-{HEAD}-{stamp}.db"
    backup(path, copy)
    try:
        migrate(path, "head")
    except Exception as error:
        raise UpgradeFailed(path, copy, str(error)) from error
    return copy


def migrate(path: Path, target: str) -> None:
    """Run the migrations in one transaction, foreign keys off (a rebuilt table would take its children along)."""
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
    open, or it cannot be written any more, the rest stays in the file beside it, where it is as good.
    """
    with (
        suppress(sqlite3.OperationalError),
        closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True)) as last,
    ):
        last.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()


def backup(path: Path, target: Path) -> None:
    """A copy of the ledger as it stands, also while others write; the target appears whole or not at all."""
    target.parent.mkdir(parents=True, exist_ok=True)
    part = target.with_name(target.name + ".part")
    try:
        with (
            closing(sqlite3.connect(read_uri(path), uri=True)) as source,
            closing(sqlite3.connect(part)) as copy,
        ):
            source.backup(copy)
        part.replace(target)
    except sqlite3.Error as error:
        raise as_ledger_error(error, target) from error
    finally:
        part.unlink(missing_ok=True)


def restore(path: Path, source: Path, backups: Path, stamp: str) -> Path:
    """Bring a backup back into the live file after a copy of what is there; returns that copy."""
    if head_in(source) > HEAD:
        raise NewerLedger(source, head_in(source))
    before = backups / f"{path.stem}-before-restore-{stamp}.db"
    backup(path, before)
    try:
        with (
            closing(sqlite3.connect(read_uri(source), uri=True)) as good,
            closing(sqlite3.connect(path)) as live,
        ):
            good.backup(live)
    except sqlite3.Error as error:
        raise as_ledger_error(error, path) from error
    return before


def check(path: Path) -> list[str]:
    """What is wrong with the file and its accounts, a sentence each; empty when nothing is."""
    with closing(sqlite3.connect(read_uri(path), uri=True)) as connection:
        damaged = [row[0] for row in connection.execute("PRAGMA integrity_check") if row[0] != "ok"]
        dangling = [
            f"{row[0]} {row[1]} refers to a missing {row[2]}"
            for row in connection.execute("PRAGMA foreign_key_check")
        ]
        return damaged + dangling + broken_rules(connection)
