"""Turns what SQLite says into errors a person can act on."""

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
