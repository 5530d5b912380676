"""The file itself: foreign, newer, older, read-only, busy, full; backup and restore."""

import os
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from buildlog.errors import (
    InTheFuture,
    LedgerBusy,
    LedgerChanged,
    LedgerError,
    NewerLedger,
    NotALedger,
    ReadOnlyLedger,
    UpgradeFailed,
)
from buildlog.ledger import USUAL_SETTINGS, Ledger
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.record import keeping
from buildlog.record.trouble import as_ledger_error
from buildlog.record.writer import writing_engine
from buildlog.terms import Moment


def beetle() -> Add:
    return Add(form_from_texts("build", {"code": "LB", "name": "Lantern Beetle"}))


@pytest.mark.parametrize("content", [b"", b"not a database at all, just words" * 50, b"\0" * 5000])
def test_a_file_that_is_no_ledger_is_refused_and_left_as_it_was(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "notes.db"
    path.write_bytes(content)
    with pytest.raises(NotALedger, match="left as it was"):
        Ledger.open(path, tmp_path / "backups")
    assert path.read_bytes() == content


def test_another_programs_sqlite_file_is_refused_and_left_as_it_was(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE alembic_version (version_num TEXT)")
        connection.execute("INSERT INTO alembic_version VALUES ('0001')")
        connection.commit()
    before = path.read_bytes()
    with pytest.raises(NotALedger):
        Ledger.open(path, tmp_path / "backups")
    assert path.read_bytes() == before


def test_a_ledger_that_another_program_made_in_the_meantime_is_kept(ledger: Ledger) -> None:
    ledger.record(beetle())
    ledger.close()
    keeping.create(ledger.path, USUAL_SETTINGS)
    again = Ledger(ledger.path, ledger.backups, ledger.clock)
    assert [build.code for build in again.snapshot().builds] == ["LB"]
    again.close()
    assert not list(ledger.path.parent.glob("*.new"))


def test_a_newer_ledger_is_refused_and_left_as_it_was(ledger: Ledger, tmp_path: Path) -> None:
    ledger.close()
    with closing(sqlite3.connect(ledger.path)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
    with pytest.raises(NewerLedger, match="9999"):
        Ledger.open(ledger.path, tmp_path / "backups")


def test_an_upgrade_copies_first_and_a_failed_one_leaves_the_file_as_it_was(
    ledger: Ledger, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ledger.record(beetle())
    ledger.close()
    with closing(sqlite3.connect(ledger.path)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '0000'")
        connection.commit()
    with pytest.raises(UpgradeFailed, match="left as it was") as failed:
        Ledger.open(ledger.path, tmp_path / "backups")
    (copy,) = (tmp_path / "backups").iterdir()
    assert str(copy) in str(failed.value)
    for path in (copy, ledger.path):
        with closing(sqlite3.connect(path)) as connection:
            assert connection.execute("SELECT name FROM build").fetchall() == [("Lantern Beetle",)]
            assert connection.execute("SELECT version_num FROM alembic_version").fetchone() == ("0000",)


def test_an_upgrade_by_another_program_is_noticed_before_anything_is_written(ledger: Ledger) -> None:
    with closing(sqlite3.connect(ledger.path)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
    with pytest.raises(LedgerChanged):
        ledger.record(beetle())


def test_a_ledger_in_a_write_protected_folder_opens_for_reading_and_says_why(
    ledger: Ledger, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ledger.record(beetle())
    ledger.close()
    real = os.access

    def as_stranger(path: Any, mode: int) -> bool:  # root may write anything: play somebody else
        return mode != os.W_OK and real(path, mode)

    monkeypatch.setattr(os, "access", as_stranger)
    reading = Ledger.open(ledger.path, tmp_path / "backups")
    assert reading.why_read_only
    for beside in ("-wal", "-shm"):
        ledger.path.with_name(ledger.path.name + beside).unlink(missing_ok=True)
    assert len(reading.snapshot().builds) == 1
    assert [path.name for path in ledger.path.parent.glob("*.db-*")] == []  # none could be made there
    with pytest.raises(ReadOnlyLedger, match="Nothing was changed"):
        reading.record(beetle())
    reading.close()


def test_a_writer_waits_for_another_and_then_says_that_it_is_busy(ledger: Ledger) -> None:
    from sqlalchemy import event

    with closing(sqlite3.connect(ledger.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        engine = ledger.writer()._engine
        event.listen(engine, "connect", lambda dbapi, _: dbapi.execute("PRAGMA busy_timeout = 50"))
        with pytest.raises(LedgerBusy, match="nothing was changed"):
            ledger.record(beetle())
        other.execute("ROLLBACK")
    assert ledger.snapshot().builds == ()


FILL = """
import resource, signal, sys
from pathlib import Path
from buildlog.errors import DiskFull, LedgerError
from buildlog.ledger import Ledger
from buildlog.proposals.nouns import Add, form_from_texts
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
folder = Path(sys.argv[1])
ledger = Ledger.open(folder / "ledger.db", folder / "backups")
ledger.writer()
ledger.record(Add(form_from_texts("build", {"code": "LB", "name": "Lantern Beetle"})))
size = max(p.stat().st_size for p in folder.iterdir() if p.is_file())
resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))
for number in range(2000):
    try:
        ledger.record(Add(form_from_texts("box", {"code": f"B{number}", "name": "x" * 190})))
    except LedgerError as error:
        print(type(error).__name__, number)
        break
"""


def test_a_full_disk_is_told_and_loses_nothing_that_was_recorded(tmp_path: Path) -> None:
    ran = subprocess.run(
        [sys.executable, "-c", FILL, str(tmp_path)], capture_output=True, text=True, check=True, timeout=120
    )
    error, kept = ran.stdout.split()
    assert error in ("DiskFull", "LedgerError")
    again = Ledger.open(tmp_path / "ledger.db", tmp_path / "backups")
    assert len(again.snapshot().boxes) == int(kept)
    assert again.check() == []
    again.close()


class DiskError(sqlite3.OperationalError):
    sqlite_errorname = "SQLITE_IOERR_SHMSIZE"


@pytest.mark.parametrize(("free", "words"), [(4096, "is full"), (10**9, "whether there is room on it")])
def test_a_disk_that_does_not_take_what_is_laid_beside_the_ledger_is_told_with_what_to_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, free: int, words: str
) -> None:
    monkeypatch.setattr("shutil.disk_usage", lambda _: SimpleNamespace(free=free))
    assert words in str(as_ledger_error(DiskError("disk I/O error"), tmp_path / "none" / "ledger.db"))


def test_a_ledger_that_could_not_be_made_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def torn(fresh: Path, path: Path) -> None:
        for beside in ("-wal", "-shm"):
            fresh.with_name(fresh.name + beside).touch()
        raise DiskError("disk I/O error")

    monkeypatch.setattr(keeping, "_name", torn)
    with pytest.raises(LedgerError):
        Ledger.open(tmp_path / "ledger.db")
    assert list(tmp_path.iterdir()) == []


def test_a_pipe_is_refused_instead_of_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "ledger.db")
    with pytest.raises(NotALedger):
        Ledger.open(tmp_path / "ledger.db")


def test_a_closed_ledger_holds_everything_in_its_one_file(ledger: Ledger, add: Any, tmp_path: Path) -> None:
    ledger.snapshot()
    for number in range(20):
        add("box", code=f"B{number}", name="x" * 100)
    ledger.close()
    (tmp_path / "stick").mkdir()
    copied = Path(shutil.copy(ledger.path, tmp_path / "stick"))  # without the -wal that SQLite keeps beside it
    again = Ledger.open(copied, tmp_path / "backups")
    assert len(again.snapshot().boxes) == 20
    again.close()


def test_closing_while_another_program_has_the_ledger_open_keeps_what_both_wrote(
    ledger: Ledger, tmp_path: Path, clock: Any
) -> None:
    other = Ledger.open(ledger.path, tmp_path / "backups", clock)
    with closing(sqlite3.connect(ledger.path, isolation_level=None)) as third:
        ledger.record(beetle())
        third.execute("BEGIN")
        third.execute("SELECT count(*) FROM build").fetchone()
        ledger.close()
        assert len(other.snapshot().builds) == 1
    other.close()


def test_a_backup_comes_back_into_the_live_file_and_what_was_there_is_kept(ledger: Ledger, add: Any) -> None:
    ledger.record(beetle())
    copy = ledger.backup()
    add("build", code="DC", name="Drum Cart")
    before = ledger.restore(copy)
    assert [build.code for build in ledger.snapshot().builds] == ["LB"]
    with closing(sqlite3.connect(before)) as connection:
        assert connection.execute("SELECT count(*) FROM build").fetchone() == (2,)


def test_restoring_from_a_foreign_file_is_refused_and_changes_nothing(ledger: Ledger, tmp_path: Path) -> None:
    ledger.record(beetle())
    foreign = tmp_path / "letter.txt"
    foreign.write_text("Dear diary")
    with pytest.raises(NotALedger):
        ledger.restore(foreign)
    assert len(ledger.snapshot().builds) == 1


def test_a_ledger_is_not_restored_from_itself(ledger: Ledger) -> None:
    ledger.record(beetle())
    with pytest.raises(LedgerError, match="is this ledger itself"):
        ledger.restore(ledger.path)
    assert len(ledger.snapshot().builds) == 1


def test_a_fact_in_the_future_is_refused(ledger: Ledger) -> None:
    with pytest.raises(InTheFuture):
        ledger.record(beetle(), Moment("2031-01-01T00:00:00Z"))


def test_check_names_broken_rules_and_dangling_rows(ledger: Ledger) -> None:
    ledger.record(beetle())
    with closing(sqlite3.connect(ledger.path)) as connection:
        connection.execute("UPDATE build SET id = 7")
        connection.execute(
            "INSERT INTO episode (build_id, number, title, films_at) VALUES (1, 1, '', '2026-11-25T12:00:00Z')"
        )
        connection.commit()
    assert any("episode" in problem for problem in ledger.check())


def test_another_connections_commit_changes_the_version_that_the_reader_sees(
    ledger: Ledger, tmp_path: Path, clock: Any
) -> None:
    other = Ledger.open(ledger.path, tmp_path / "backups", clock)
    seen = ledger.version()
    assert ledger.version() == seen
    other.record(beetle())
    assert ledger.version() != seen
    other.close()


def test_what_is_written_is_on_the_disk_beside_readers_and_refers_to_what_is_there(ledger: Ledger) -> None:
    ledger.record(beetle())
    with writing_engine(ledger.path).connect() as connection:
        names = ("journal_mode", "synchronous", "foreign_keys")
        told = [connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in names]
    assert told == ["wal", 2, 1]  # 2 is FULL: SQLite's documentation of PRAGMA synchronous, from memory
