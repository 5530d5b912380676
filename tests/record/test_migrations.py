"""The record by migrations and the record by tables are one."""

import re
import sqlite3
from contextlib import closing
from importlib.resources import files
from pathlib import Path

from alembic.config import Config
from alembic.script import ScriptDirectory

from buildlog.ledger import Ledger
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.record import keeping
from buildlog.record.head import APPLICATION_ID, HEAD
from buildlog.record.tables import TABLES

CONSTRAINT = re.compile(r"\b(CHECK|UNIQUE|FOREIGN KEY|REFERENCES)\b")
NAMED = re.compile(r"CONSTRAINT (ck|uq|fk)_\w+ (CHECK|UNIQUE|FOREIGN KEY)\b")


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


def test_every_constraint_has_a_name_and_no_id_is_ever_given_twice(ledger: Ledger) -> None:
    schema = schema_of(ledger.path)
    for table in TABLES:
        assert "id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT" in schema[table], table
        constraints = {clause for clause in schema[table] if CONSTRAINT.search(clause)}
        assert {clause for clause in constraints if not NAMED.match(clause)} == set(), table


def test_the_head_known_to_the_program_is_the_newest_migration() -> None:
    config = Config()
    config.set_main_option("script_location", str(files("buildlog.migrations")))
    assert ScriptDirectory.from_config(config).get_current_head() == HEAD


def test_a_ledger_of_the_first_revision_is_copied_and_then_brought_up_with_all_that_it_holds(
    tmp_path: Path, ledger: Ledger
) -> None:
    old, backups = tmp_path / "old.db", tmp_path / "backups"
    old.touch()
    keeping.migrate(old, "0001")
    filled_like(ledger, old)
    opened = Ledger.open(old, backups)
    held = opened.snapshot()
    assert [build.code for build in held.builds] == ["LB"]
    assert held.shots == held.viewer_questions == held.promises == ()
    assert opened.check() == []
    opened.close()
    (copy,) = backups.iterdir()
    with closing(sqlite3.connect(copy)) as connection:
        assert connection.execute("SELECT version_num FROM alembic_version").fetchone() == ("0001",)
        assert connection.execute("SELECT code FROM build").fetchone() == ("LB",)
    assert schema_of(old) == schema_of(ledger.path)


def test_a_copy_of_an_older_revision_comes_back_upgraded_into_the_ledger_that_is_open(
    tmp_path: Path, ledger: Ledger
) -> None:
    old = tmp_path / "old.db"
    old.touch()
    keeping.migrate(old, "0001")
    filled_like(ledger, old)
    ledger.record(Add(form_from_texts("build", {"code": "DC", "name": "Drum Cart"})))
    assert len(ledger.snapshot().builds) == 2
    before = ledger.restore(old)
    assert [build.code for build in ledger.snapshot().builds] == ["LB"]
    assert ledger.check() == []
    assert keeping.head_in(old) == "0001"
    assert [path for path in before.parent.iterdir() if "upgraded" in path.name] == []
    ledger.record(Add(form_from_texts("build", {"code": "DC", "name": "Drum Cart"})))


def filled_like(ledger: Ledger, old: Path) -> None:
    """A build in a file of the first revision, whose tables then were those of today but the new ones."""
    ledger.record(Add(form_from_texts("build", {"code": "LB", "name": "Lantern Beetle"})))
    with closing(sqlite3.connect(old)) as connection:
        connection.execute("ATTACH ? AS today", (str(ledger.path),))
        for (table,) in connection.execute("SELECT name FROM main.sqlite_master WHERE type = 'table'").fetchall():
            if not table.startswith(("sqlite_", "alembic")):
                connection.execute(f'INSERT INTO main."{table}" SELECT * FROM today."{table}"')
        connection.execute("UPDATE main.journal_group SET head = '0001'")
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.commit()
