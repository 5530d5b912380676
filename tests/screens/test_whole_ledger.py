"""What is done with the ledger as a whole, by its name from any screen: read, export, backup, restore, check."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from buildlog.files import export, read_into
from buildlog.ledger import Ledger
from buildlog.proposals.notes import AddNote


async def call(on: Any, name: str) -> None:
    await on.find(name)
    await on.press("enter")


async def fill(on: Any, texts: dict[str, str]) -> None:
    await on.fill(texts)
    await on.press("enter")


@pytest.fixture
def boxes(tmp_path: Path) -> Path:
    path = tmp_path / "boxes.csv"
    path.write_text("code,name\nX1,Small gears\nX2,Springs\n")
    return path


def codes(ledger: Ledger) -> list[str]:
    return [box.code for box in ledger.snapshot().boxes if box.retired_at is None]


async def test_a_backup_is_made_and_its_path_is_said(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(160, 24)) as on:
        await call(on, "backup")
        (copy,) = workshop.backups.iterdir()
        assert f"Copied to {copy}." in on.sentences
    opened = Ledger.open(copy, workshop.backups, workshop.clock)
    assert opened.snapshot().parts == workshop.snapshot().parts
    opened.close()


async def test_where_no_copy_can_be_made_another_place_is_asked(
    workshop: Ledger, screens: Any, tmp_path: Path
) -> None:
    workshop.backups.write_text("a file where the folder should be")
    async with screens(workshop) as on:
        await call(on, "backup")
        assert "cannot be written" in on.sentences
        await fill(on, {"path": str(tmp_path / "elsewhere" / "copy.db")})
    assert (tmp_path / "elsewhere" / "copy.db").is_file()


async def test_a_sound_ledger_is_checked_in_a_line(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await call(on, "check")
        assert "Nothing is wrong." in on.sentences


async def test_what_is_wrong_with_a_ledger_is_listed(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        with closing(sqlite3.connect(workshop.path)) as connection:
            connection.execute("UPDATE spool_entry SET spool_id = 4711 WHERE id = 1")
            connection.commit()
        await call(on, "check")
        found = workshop.check()
        assert found
        assert all(line[:60] in on.text for line in found[:3]), on.text


async def test_checking_a_ledger_that_is_gone_says_what_to_do(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(200, 24)) as on:
        await on.find("check")
        workshop.path.rename(workshop.path.with_name("moved.db"))
        await on.press("enter")
        await on.until("put the file back")
        workshop.path.with_name("moved.db").rename(workshop.path)


async def test_a_list_is_exported_and_reads_back(workshop: Ledger, screens: Any, tmp_path: Path) -> None:
    out = tmp_path / "mine.csv"
    async with screens(workshop) as on:
        await call(on, "export")
        number = [choice.label for choice in on.app.screen._choices].index("part")
        on.app.screen.query_one("#choices").move_to(str(number))
        await on.press("enter")
        assert on.app.screen._entries["path"].text == "part.csv"
        await fill(on, {"path": str(out)})
    assert out.read_text("utf-8") == export(workshop.snapshot(), "part", workshop.now())
    assert not read_into(workshop, [out], dry_run=True).is_new


@pytest.mark.parametrize("what", ["counts", "print history"])
async def test_what_lies_there_and_what_was_printed_are_exported_as_the_command_does(
    what: str, workshop: Ledger, screens: Any, tmp_path: Path
) -> None:
    out = tmp_path / "mine.csv"
    async with screens(workshop) as on:
        await call(on, "export")
        number = [choice.label for choice in on.app.screen._choices].index(what)
        on.app.screen.query_one("#choices").move_to(str(number))
        await on.press("enter")
        assert on.app.screen._entries["path"].text == f"{what.replace(' ', '-')}.csv"
        await fill(on, {"path": str(out)})
    assert out.read_text("utf-8") == export(workshop.snapshot(), what, workshop.now())
    assert len(out.read_text("utf-8").splitlines()) > 2


async def test_a_build_sheet_is_never_written_over_a_file_without_a_yes(
    workshop: Ledger, screens: Any, tmp_path: Path
) -> None:
    out = tmp_path / "sheet.toml"
    out.write_text("mine")
    async with screens(workshop) as on:
        await call(on, "export")
        await on.press("enter")
        await fill(on, {"path": str(out)})
        await on.press("enter")  # on no
        assert out.read_text() == "mine"
        await call(on, "export")
        await on.press("enter")
        await fill(on, {"path": str(out)})
        await on.press("y")
    assert out.read_text("utf-8") == export(workshop.snapshot(), "sheet", workshop.now())


async def test_an_export_that_cannot_be_written_says_so(workshop: Ledger, screens: Any, tmp_path: Path) -> None:
    async with screens(workshop, size=(160, 24)) as on:
        await call(on, "export")
        await on.press("enter")
        await fill(on, {"path": str(tmp_path / "nowhere" / "sheet.toml")})
        assert "cannot be written" in on.sentences
        assert "name another place" in on.sentences


async def test_files_are_shown_before_they_are_taken_and_undone_as_one(
    workshop: Ledger, screens: Any, boxes: Path
) -> None:
    before, newest = codes(workshop), workshop.journal(1)[0].id
    async with screens(workshop) as on:
        await call(on, "read")
        await fill(on, {"files": str(boxes)})
        assert "added box X1" in on.sentences
        assert codes(workshop) == before
        await on.press("enter")
        assert codes(workshop) == [*before, "X1", "X2"]
        assert workshop.journal(1)[0].id == newest + 1
        await on.press("u enter")
    assert codes(workshop) == before


async def test_files_that_are_looked_at_and_left_change_nothing(workshop: Ledger, screens: Any, boxes: Path) -> None:
    before = workshop.journal(1)
    async with screens(workshop) as on:
        await call(on, "read")
        await fill(on, {"files": str(boxes)})
        await on.press("escape")
    assert workshop.journal(1) == before


async def test_several_files_are_read_together_and_once_only(
    workshop: Ledger, screens: Any, boxes: Path, tmp_path: Path
) -> None:
    other = tmp_path / "my suppliers.csv"
    other.write_text("code,name\nSUP9,Bolt cellar\n")
    async with screens(workshop) as on:
        for _ in range(2):
            await call(on, "read")
            await fill(on, {"files": f"{boxes} '{other}'"})
            await on.press("enter")
        assert [s.code for s in workshop.snapshot().suppliers][-1] == "SUP9"
        assert codes(workshop)[-2:] == ["X1", "X2"]


async def test_all_that_is_wrong_with_files_is_told_and_the_form_comes_back(
    workshop: Ledger, screens: Any, tmp_path: Path
) -> None:
    bad = tmp_path / "materials.csv"
    bad.write_text("code,colour\nNEW-1,red\nNEW-2,blue\n")
    before = workshop.journal(1)
    async with screens(workshop, size=(110, 40)) as on:
        await call(on, "read")
        await fill(on, {"files": str(bad)})
        assert "Nothing was taken" in on.text
        assert "line 2, name: name is missing" in on.text
        assert "line 3, name: name is missing" in on.text
        await on.press("enter")
        assert on.app.screen._entries["files"].text == str(bad)
    assert workshop.journal(1) == before


async def test_a_file_that_is_not_there_is_told_in_the_form(workshop: Ledger, screens: Any, tmp_path: Path) -> None:
    async with screens(workshop, size=(160, 24)) as on:
        await call(on, "read")
        await fill(on, {"files": str(tmp_path / "none.csv")})
        assert "there is no file" in on.sentences


async def test_where_file_and_ledger_both_changed_it_is_asked_which_wins(
    workshop: Ledger, screens: Any, boxes: Path
) -> None:
    from buildlog.proposals.nouns import Change

    read_into(workshop, [boxes])
    workshop.record(Change("box", "X1", {"name": "Large gears"}))
    boxes.write_text(boxes.read_text().replace("Small gears", "Tiny gears"))
    async with screens(workshop) as on:
        await call(on, "read")
        await fill(on, {"files": str(boxes)})
        assert "Which wins" in on.sentences
        await on.press("2 enter")
    assert next(box.name for box in workshop.snapshot().boxes if box.code == "X1") == "Tiny gears"


async def restore(on: Any, path: Path, answer: str = "y") -> None:
    await call(on, "restore")
    await fill(on, {"path": str(path)})
    await on.press(answer)


async def test_a_copy_is_brought_back_and_shown_and_what_was_there_is_kept(workshop: Ledger, screens: Any) -> None:
    copy = workshop.backup()
    async with screens(workshop) as on:
        workshop.record(AddNote(text="written since"))
        await restore(on, copy)
        assert [note.text for note in workshop.snapshot().notes] == []
        assert on.app.status.snapshot.notes == ()
        (before,) = set(workshop.backups.glob("*.db")) - {copy}
        await on.press("u")
        assert "Nothing was changed from here" in on.sentences
        workshop.record(AddNote(text="goes on"))
        assert workshop.check() == []
    kept = Ledger.open(before, workshop.backups, workshop.clock)
    assert [note.text for note in kept.snapshot().notes] == ["written since"]
    kept.close()


async def test_enter_brings_nothing_back(workshop: Ledger, screens: Any) -> None:
    copy = workshop.backup()
    workshop.record(AddNote(text="written since"))
    async with screens(workshop) as on:
        await restore(on, copy, "enter")
    assert [note.text for note in workshop.snapshot().notes] == ["written since"]
    assert list(workshop.backups.iterdir()) == [copy]


Made = Callable[[Ledger, Path], Path]


def _letter(_: Ledger, folder: Path) -> Path:
    path = folder / "letter.txt"
    path.write_text("Dear diary")
    return path


@pytest.mark.parametrize(
    ("made", "told"),
    [(_letter, "is not a ledger of this program"), (lambda ledger, _: ledger.path, "is this ledger itself")],
)
async def test_what_is_no_copy_is_refused_and_nothing_is_lost(
    workshop: Ledger, screens: Any, tmp_path: Path, made: Made, told: str
) -> None:
    before = workshop.journal(1)
    path = made(workshop, tmp_path)
    async with screens(workshop, size=(140, 30)) as on:
        await restore(on, path)
        assert told in on.sentences
        await on.press("enter")
        assert on.app.screen._entries["path"].text == str(path)
    assert workshop.journal(1) == before
    assert not workshop.backups.exists()
