"""A ledger whose file or rows were damaged from outside: what is said, and that nothing more is lost."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from buildlog.errors import AlreadyAFile, DamagedLedger, LedgerChanged, LedgerGone, NoLedgerThere
from buildlog.ledger import Ledger
from buildlog.status.status import take_stock


def by_hand(path: Path, sql: str) -> None:
    """Write past every rule of the record."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        connection.execute(sql)
        connection.commit()


def trip_over(ledger: Ledger) -> None:
    """Some garbled values trip the reading up, some what is computed, some nothing at all."""
    take_stock(ledger.snapshot(), ledger.now())
    raise KeyError("the first that a garbled value trips up")


@pytest.mark.parametrize(
    ("sql", "said"),
    [
        (
            "UPDATE build SET state = 'rubbish'",
            "build 1: state is «rubbish», it must be one of",
        ),
        ("UPDATE build SET created_at = '2026-13-45T99:00:00Z'", "build 1: created_at is «2026-13-45T99:00:00Z», it"),
        ("UPDATE build SET rank = 'first'", "build 1: rank is «first», it must be a whole number"),
        ("UPDATE settings SET home_zone = x'00ff'", "settings 1: home_zone is"),
        ("DELETE FROM settings", "settings has 0 rows"),
    ],
)
def test_a_garbled_row_is_named_by_check_and_by_whoever_stumbles_over_it(
    ledger: Ledger, add: Any, sql: str, said: str
) -> None:
    add("build", code="LB", name="Lantern Beetle")
    by_hand(ledger.path, sql)
    assert any(problem.startswith(said) for problem in ledger.check())
    with pytest.raises(DamagedLedger, match="Nothing was changed"), ledger.understood():
        trip_over(ledger)


def test_an_error_of_the_program_on_a_sound_ledger_is_not_passed_off_as_damage(ledger: Ledger) -> None:
    with pytest.raises(KeyError), ledger.understood():
        raise KeyError("a fault of ours")


@pytest.mark.parametrize("kept", [0.4, 0.1])
def test_a_truncated_ledger_is_called_damaged_and_a_backup_comes_back_into_a_new_one(
    ledger: Ledger, add: Any, tmp_path: Path, kept: float
) -> None:
    add("build", code="LB", name="Lantern Beetle")
    copy = ledger.backup()
    ledger.close()
    whole = ledger.path.read_bytes()
    ledger.path.write_bytes(whole[: int(len(whole) * kept)])
    with pytest.raises(DamagedLedger, match="restore BACKUP"):
        Ledger.open(ledger.path, tmp_path / "backups")
    fresh = Ledger.open(tmp_path / "new.db", tmp_path / "backups")
    fresh.restore(copy)
    assert [build.code for build in fresh.snapshot().builds] == ["LB"]
    fresh.close()


def test_what_is_no_file_is_told_apart_from_a_foreign_one(tmp_path: Path) -> None:
    (tmp_path / "one").symlink_to(tmp_path / "two")
    (tmp_path / "two").symlink_to(tmp_path / "one")
    (tmp_path / "away.db").symlink_to(tmp_path / "stick" / "ledger.db")
    (tmp_path / "text").write_text("words")
    for path, said in (
        (tmp_path, "is a folder"),
        (tmp_path / "one", "is a link that leads to no file"),
        (tmp_path / "away.db", "is a link that leads to no file"),
        (tmp_path / "one" / "ledger.db", "cannot be made"),
        (tmp_path / "text" / "ledger.db", "cannot be made"),
        (tmp_path / ("x" * 300), "cannot be made"),
    ):
        with pytest.raises(NoLedgerThere, match=said):
            Ledger.open(path, tmp_path / "backups")
    assert (tmp_path / "away.db").is_symlink()


def test_a_backup_never_takes_the_place_of_a_file(ledger: Ledger, tmp_path: Path) -> None:
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear diary")
    for target in (letter, ledger.path, tmp_path):
        with pytest.raises(AlreadyAFile, match="left as it was"):
            ledger.backup(target)
    assert letter.read_text() == "Dear diary"
    with pytest.raises(NoLedgerThere, match="cannot be written"):
        ledger.backup(letter / "copy.db")


def test_two_copies_in_one_second_are_both_kept(ledger: Ledger, add: Any) -> None:
    first = ledger.backup()
    add("build", code="LB", name="Lantern Beetle")
    assert ledger.backup() != first
    before = [ledger.restore(first), ledger.restore(first)]
    assert len({first, *before}) == 3
    assert all(path.exists() for path in before)


def test_a_file_deleted_while_it_is_open_is_not_made_anew_by_the_next_wish(ledger: Ledger, add: Any) -> None:
    ledger.snapshot()
    ledger.path.unlink()
    for looks in (ledger.version, lambda: add("build", code="LB", name="Lantern Beetle")):
        with pytest.raises(LedgerGone, match="Nothing was changed"):
            looks()
    assert not ledger.path.exists()


def test_a_file_replaced_while_it_is_open_is_not_written(ledger: Ledger, add: Any, tmp_path: Path) -> None:
    ledger.snapshot()
    other = Path(shutil.copy(ledger.path, tmp_path / "other.db"))
    other.replace(ledger.path)
    with pytest.raises(LedgerGone, match="replaced"):
        add("build", code="LB", name="Lantern Beetle")


def test_reading_notices_an_upgrade_by_another_program(ledger: Ledger) -> None:
    ledger.snapshot()
    by_hand(ledger.path, "UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(LedgerChanged, match="open it again"):
        ledger.snapshot()
