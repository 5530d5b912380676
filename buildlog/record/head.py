"""The newest revision of the record that this program knows, checked without loading alembic."""

import sqlite3
from typing import Any

HEAD = "0002"

APPLICATION_ID = 0x424C4F47
"""Written into the file's header, so that a foreign SQLite file is told from a ledger."""


def head_of(connection: Any) -> str | None:
    """The revision of an open ledger, None where it has none."""
    try:
        row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    except sqlite3.OperationalError as error:
        if "no such table" in str(error):
            return None
        raise
    return None if row is None else str(row[0])
