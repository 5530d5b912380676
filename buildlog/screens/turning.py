"""Undo and redo from the screens: which change it is is said first."""

from __future__ import annotations

from collections.abc import Callable

from buildlog.errors import BuildlogError
from buildlog.screens.dialogs.confirm import Confirm
from buildlog.screens.dialogs.say import Say
from buildlog.screens.live import LiveApp
from buildlog.screens.widgets.tones import Tone

TURNING = {"Taken back": "Taking it back", "Put back": "Putting it back"}
NONE_HERE = "Nothing was changed from here yet; {take_back_this} in {go_journal} Journal takes back older ones."


async def take_back(app: LiveApp) -> None:
    """Take back the newest change that was made on these screens."""
    if not app.own:
        app.tell(NONE_HERE, Tone.CAUTION)
        return
    await take_back_group(app, *app.own[-1])


async def take_back_group(app: LiveApp, group_id: int, sentence: str) -> None:
    """Take back the change with this number, whoever made it."""
    if not await app.push_screen_wait(Confirm("Take this back?", [f"«{sentence}»"], yes="take it back")):
        return
    if await _turned(app, "Taken back", lambda: app.ledger.undo(group_id).summary):
        app.own = [made for made in app.own if made[0] != group_id]


async def put_back(app: LiveApp) -> None:
    """Put back what was taken back last; `u` takes it back again."""
    turned: list[int] = []

    def turn() -> str:
        summary = app.ledger.redo().summary
        turned.extend(group.undoes_id for group in app.ledger.journal(1) if group.undoes_id is not None)
        return summary

    summary = await _turned(app, "Put back", turn)
    app.own += [(group_id, summary) for group_id in turned]


async def _turned(app: LiveApp, what: str, turn: Callable[[], str]) -> str:
    """The summary of what was turned; empty where it was refused, which is said."""
    try:
        summary = await app.carry_out(TURNING[what], turn)
    except BuildlogError as error:
        await app.push_screen_wait(Say("Nothing was changed", str(error).splitlines()))
        return ""
    app.tell(f"{what}: {summary}", Tone.GOOD)
    app.refresh_status()
    return summary
