"""The record by migrations and the record by tables are one."""

import sqlite3
from contextlib import closing
from importlib.resources import files
from pathlib import Path

from alembic.config import Config
from alembic.script import ScriptDirectory

from buildlog.ledger import Ledger
from buildlog.record import keeping
from buildlog.record.head import HEAD


def schema_of(path: Path) -> dict[str, set[str]]:
    """The statements of a file's tables and indexes, each as the set of its clauses."""
    query = """SELECT name, sql FROM sqlite_master
        WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%' AND name <> 'alembic_version'"""
    with closing(sqlite3.connect(path)) as connection:
        return {
            name: {" ".join(clause.split()).strip(" ,") for clause in sql.replace('"', "").splitlines()}
            for name, sql in connection.execute(query)
        }


def test_a_ledger_migrated_from_the_first_revision_equals_one_created_from_the_tables(
    tmp_path: Path, ledger: Ledger
) -> None:
    migrated = tmp_path / "migrated.db"
    migrated.touch()
    keeping.migrate(migrated, "head")
    assert schema_of(migrated) == schema_of(ledger.path)


def test_the_head_known_to_the_program_is_the_newest_migration() -> None:
    config = Config()
    config.set_main_option("script_location", str(files("buildlog.migrations")))
    assert ScriptDirectory.from_config(config).get_current_head() == HEAD
