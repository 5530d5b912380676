"""What is done with the ledger as a whole, by the names that the shell has for it: the same is called by both."""

from __future__ import annotations

import asyncio
import os
from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING, NamedTuple

from buildlog.errors import BuildlogError
from buildlog.screens.widgets.tones import Tone

if TYPE_CHECKING:
    from pathlib import Path

    from buildlog.screens.base import LiveScreen


async def _read(screen: LiveScreen) -> None:
    from buildlog.screens.acts.reading import read_files

    await read_files(screen)


async def _export(screen: LiveScreen) -> None:
    from buildlog.screens.acts.exporting import export_things

    await export_things(screen)


async def _back_up(screen: LiveScreen) -> None:
    """Into the backups folder; where that is refused, another place is asked."""
    from buildlog.screens.acts.files import WHERE, path_of
    from buildlog.screens.dialogs.ask_fields import AskFields

    ledger, target = screen.live.ledger, None
    screen.live.tell("Copying the ledger …")
    while True:
        try:
            copy = await asyncio.to_thread(ledger.backup, target)
        except BuildlogError as error:
            name = target or ledger.path.with_name(f"{ledger.path.stem}-copy.db").absolute()
            form = AskFields("Copy it where?", [WHERE], values={"path": str(name)}, caution=str(error))
            values = await screen.app.push_screen_wait(form)
            if values is None:
                screen.live.tell("No copy was made.", Tone.CAUTION)
                return
            target = path_of(values["path"])
        else:
            screen.live.tell(f"Copied to {copy}.", Tone.GOOD)
            return


async def _check(screen: LiveScreen) -> None:
    from buildlog.screens.dialogs.read_through import ReadThrough

    ledger = screen.live.ledger
    screen.live.tell("Checking the ledger …")

    def checked() -> list[str]:
        with ledger.understood():
            return ledger.check()

    try:
        found = await asyncio.to_thread(checked)
    except BuildlogError as error:
        screen.live.tell(str(error), Tone.BAD)
        return
    risk = ledger.risk
    if not found:
        screen.live.tell(f"Nothing is wrong. {risk or ''}".rstrip(), Tone.CAUTION if risk else Tone.GOOD)
        return
    screen.live.tell("Something is wrong with the ledger.", Tone.BAD)
    await screen.app.push_screen_wait(
        ReadThrough("What is wrong with the ledger", [*found, *([risk] if risk else []), KEEP], "closes")
    )


KEEP = "Keep this file, and bring the newest backup back into a new one: buildlog --ledger NEW restore BACKUP."


async def _restore(screen: LiveScreen) -> None:
    from buildlog.proposals.field import Field, Kind
    from buildlog.screens.acts.files import path_of
    from buildlog.screens.dialogs.ask_fields import AskFields
    from buildlog.screens.dialogs.say import Say

    copy = Field("path", "copy", Kind.LONG_TEXT, True, help="a backup of a ledger")
    live, typed = screen.live, ""
    while True:
        form = AskFields(
            "Bring which copy back?",
            [copy],
            values={"path": typed},
            alone={"path": lambda path: "" if os.path.isfile(path_of(path)) else "there is no such file"},
            completions={"path": _copies(live.ledger.backups)},
        )
        values = await screen.app.push_screen_wait(form)
        if values is None:
            return
        typed = values["path"]
        try:
            if await _sure(screen, path_of(typed)):
                await _bring_back(screen, path_of(typed))
            return
        except BuildlogError as error:
            instead = "Name a copy that this program made."
            await screen.app.push_screen_wait(Say("Nothing was changed", str(error).splitlines(), instead=instead))


def _copies(folder: Path) -> list[str]:
    """Those in the backups folder, the newest first."""
    copies = [copy for copy in folder.glob("*.db") if copy.is_file()]
    return [str(copy) for copy in sorted(copies, key=lambda copy: copy.stat().st_mtime, reverse=True)]


async def _sure(screen: LiveScreen, source: Path) -> bool:
    from buildlog.screens.dialogs.confirm import Confirm

    ledger = screen.live.ledger
    will = [
        f"All that is in {ledger.path} now is replaced by what is in {source}.",
        f"What is there now is copied into {ledger.backups} first; {{undo}} does not take this back, bringing "
        "that copy back does.",
    ]
    sure = Confirm("Bring this copy back?", will, yes="bring it back", careful=True)
    return await screen.app.push_screen_wait(sure) is True


async def _bring_back(screen: LiveScreen, source: Path) -> None:
    """Changes made here before, and the one build that was shown, are those of another record."""
    live = screen.live
    before = await asyncio.to_thread(live.ledger.restore, source)
    live.own.clear()
    live.build_id = None
    live.tell(f"Restored from {source}. What was there before is at {before}.", Tone.GOOD)
    live.refresh_status()


class OfTheLedger(NamedTuple):
    told: str
    act: Callable[[LiveScreen], Awaitable[None]]


OF_THE_LEDGER = {
    "read": OfTheLedger("take build sheets and lists in; what changes is shown first", _read),
    "export": OfTheLedger("write a build sheet, a list, counts or the print history, to be read again", _export),
    "backup": OfTheLedger("copy the ledger as it stands", _back_up),
    "restore": OfTheLedger("bring a copy back; what is there now is copied first", _restore),
    "check": OfTheLedger("test the file, its references and its accounts", _check),
}
