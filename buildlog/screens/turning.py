"""Undo and redo from the screens: which change it is is said first."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

from buildlog.errors import BuildlogError
from buildlog.screens.dialogs.confirm import Confirm
from buildlog.screens.dialogs.say import Say
from buildlog.screens.live import LiveApp
from buildlog.screens.widgets.tones import Tone


async def take_back(app: LiveApp) -> None:
    """Take back the newest change that was made on these screens."""
    if not app.own:
        app.tell("Nothing was changed from here yet.", Tone.CAUTION)
        return
    group_id, sentence = app.own[-1]
    if not await app.push_screen_wait(Confirm("Take this back?", [f"«{sentence}»"], yes="take it back")):
        return
    if await _turned(app, "Taken back", lambda: app.ledger.undo(group_id).summary):
        app.own.remove((group_id, sentence))


async def put_back(app: LiveApp) -> None:
    """Put back what was taken back last; `u` takes it back again."""
    summary = await _turned(app, "Put back", lambda: app.ledger.redo().summary)
    newest = app.ledger.journal(1)
    if summary and newest and newest[0].undoes_id is not None:
        app.own.append((newest[0].undoes_id, summary))


async def _turned(app: LiveApp, what: str, turn: Callable[[], str]) -> str:
    """The summary of what was turned; empty where it was refused, which is said."""
    try:
        summary = await asyncio.to_thread(turn)
    except BuildlogError as error:
        await app.push_screen_wait(Say("Nothing was changed", str(error).splitlines()))
        return ""
    app.tell(f"{what}: {summary}", Tone.GOOD)
    app.refresh_status()
    return summary
