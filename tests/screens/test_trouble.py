"""The ledger gets into trouble while the screens are open: it is said, the last Status stays, nothing is lost."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from textual.screen import ModalScreen

from buildlog.ledger import Ledger
from buildlog.screens.app import Buildlog

LOOKS_IN_SECONDS = 2.2


def by_hand(path: Path, sql: str) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        connection.execute(sql)
        connection.commit()


def upgraded(ledger: Ledger) -> None:
    by_hand(ledger.path, "UPDATE alembic_version SET version_num = '9999'")


def deleted(ledger: Ledger) -> None:
    ledger.path.unlink()


def replaced(ledger: Ledger) -> None:
    Path(shutil.copy(ledger.path, ledger.path.with_name("other.db"))).replace(ledger.path)


def emptied_of_settings(ledger: Ledger) -> None:
    by_hand(ledger.path, "DELETE FROM settings")


def garbled(ledger: Ledger) -> None:
    by_hand(ledger.path, "UPDATE job SET state = 'rubbish'")


def garbled_in_time(ledger: Ledger) -> None:
    by_hand(ledger.path, "UPDATE job SET started_at = 'some day' WHERE state = 'running'")


def dropped(ledger: Ledger) -> None:
    by_hand(ledger.path, "DROP TABLE note")


HAPPENS = (upgraded, deleted, replaced, emptied_of_settings, garbled, garbled_in_time, dropped)


@pytest.mark.parametrize("happens", HAPPENS)
async def test_what_happens_to_the_file_is_said_and_every_screen_still_opens(
    workshop: Ledger, screens: Any, happens: Any
) -> None:
    async with screens(workshop) as on:
        happens(workshop)
        await on.until("The ledger cannot be read")
        await on.press("escape 2 3 4 1")
        assert "Machines" in on.text
        assert any("✗" in line for line in on.lines[-5:])


@pytest.mark.parametrize("happens", [garbled, garbled_in_time, dropped])
async def test_what_is_wrong_when_the_screens_open_is_said_once(workshop: Ledger, screens: Any, happens: Any) -> None:
    happens(workshop)
    app = Buildlog(workshop)
    async with app.run_test(size=(80, 24)) as pilot:
        while not isinstance(app.screen, ModalScreen):
            await pilot.pause(0.05)
        await pilot.press("escape")
        await pilot.pause(LOOKS_IN_SECONDS)
        assert app.status is None
        assert not isinstance(app.screen, ModalScreen)
        await pilot.press("2", "3", "1", "f", "escape")


@pytest.mark.parametrize("happens", [upgraded, deleted, replaced])
async def test_a_wish_in_trouble_is_refused_and_leaves_no_new_file(
    workshop: Ledger, screens: Any, happens: Any
) -> None:
    async with screens(workshop) as on:
        happens(workshop)
        was_there = workshop.path.exists()
        await on.press("f 1")
        assert "Nothing was" in on.text or "cannot be read" in on.text
        await on.press("escape escape u")
        assert workshop.path.exists() == was_there


async def test_when_the_trouble_is_over_the_screens_go_on(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        by_hand(workshop.path, "UPDATE printer SET name = 'Big one', heads = 'two' WHERE code = 'BIG'")
        await on.until("The ledger cannot be read")
        await on.press("escape")
        by_hand(workshop.path, "UPDATE printer SET heads = 1 WHERE code = 'BIG'")
        await on.pilot.pause(LOOKS_IN_SECONDS)
        assert next(p for p in on.app.status.snapshot.printers if p.code == "BIG").name == "Big one"


async def test_a_backup_restored_by_another_program_shows(workshop: Ledger, screens: Any) -> None:
    copy = workshop.backup()
    async with screens(workshop) as on:
        await on.press("f 1")
        assert not [r for r in on.app.status.snapshot.jobs if r.id == 3 and r.state == "running"]
        other = Ledger(workshop.path, workshop.backups, workshop.clock)
        other.restore(copy)
        other.close()
        await on.pilot.pause(LOOKS_IN_SECONDS)
        assert [r.state.value for r in on.app.status.snapshot.jobs if r.id == 3] == ["running"]
        await on.press("u y")  # the change made here is no longer on the record
        assert "Nothing was changed" in on.text


async def test_a_clock_set_back_is_followed(workshop: Ledger, screens: Any, clock: Any) -> None:
    async with screens(workshop) as on:
        clock.move_on(days=-30)
        await on.pilot.pause(LOOKS_IN_SECONDS)
        assert on.app.status.now == workshop.now()
        await on.press("2 3 4 1")
