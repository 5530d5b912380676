"""Writes what the ledger holds into a file that can be read again: a build sheet of all, the list of a noun, what
lies on the shelf, or what was printed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.files import OF_THE_PAST, SHEET, export
from buildlog.screens.acts.files import write_file
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.things_rows import MEANS

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen


async def export_things(screen: LiveScreen) -> None:
    if screen.status is None:
        return
    lists = [Choice(kind, kind, f"list (CSV): {means}") for kind, means in {**MEANS, **OF_THE_PAST}.items()]
    what = await screen.pick("Export what?", [Choice(SHEET, SHEET, "build sheet (TOML) of all"), *lists])
    if what is None:
        return
    snapshot, now = screen.status.snapshot, screen.status.now
    text = await screen.live.carry_out("Laying it out", lambda: export(snapshot, what, now))
    name = "build.toml" if what == SHEET else f"{what.replace(' ', '-')}.csv"
    await write_file(screen, f"Export {what}", name, text)
