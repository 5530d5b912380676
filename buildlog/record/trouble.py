"""Turns what SQLite says into errors a person can act on."""

import shutil
import sqlite3
from pathlib import Path

from buildlog.errors import DamagedLedger, DiskFull, LedgerBusy, LedgerError, NotALedger, ReadOnlyLedger


def as_ledger_error(error: Exception, path: Path) -> LedgerError:
    """The plain error behind a database error (bare or wrapped by SQLAlchemy)."""
    cause = getattr(error, "orig", None) or error
    name = getattr(cause, "sqlite_errorname", "") or ""
    text = str(cause)
    if name.startswith("SQLITE_FULL"):
        return DiskFull(path)
    if name.startswith("SQLITE_IOERR"):
        return _disk_trouble(path, text)
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return LedgerBusy(path)
    if name.startswith("SQLITE_READONLY"):
        return ReadOnlyLedger(path, "the file or its folder is write-protected")
    if name.startswith("SQLITE_NOTADB"):
        return NotALedger(path)
    if name.startswith("SQLITE_CORRUPT"):
        return DamagedLedger(path, f"the database said «{text}»")
    if isinstance(cause, sqlite3.OperationalError) and "unable to open" in text:
        return LedgerError(f"{path} cannot be opened ({text}). Check that its folder exists and is yours.")
    return LedgerError(f"{path}: the database said «{text}». Nothing was changed.")


LEAST_ROOM = 256 * 1024
"""Our choice: what SQLite lays beside a ledger while it is read and written takes less."""


def _disk_trouble(path: Path, text: str) -> LedgerError:
    """A full disk can show as this: the file beside the ledger, which reading needs too, cannot be made any more."""
    folder = next((folder for folder in path.absolute().parents if folder.exists()), None)
    if folder is not None and shutil.disk_usage(folder).free < LEAST_ROOM:
        return DiskFull(path)
    return LedgerError(
        f"{path}: the disk did not take or give what was asked («{text}»). Nothing was changed. Look "
        "whether there is room on it and whether it is well, then do it again."
    )
