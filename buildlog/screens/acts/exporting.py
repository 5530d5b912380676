"""Writes what the ledger holds into a file that can be read again: a build sheet of all, or the list of a noun."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.files import SHEET, export
from buildlog.screens.acts.files import write_file
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.things_rows import MEANS

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen


async def export_things(screen: LiveScreen) -> None:
    if screen.status is None:
        return
    nouns = [Choice(noun, noun, f"list (CSV): {means}") for noun, means in MEANS.items()]
    what = await screen.pick("Export what?", [Choice(SHEET, SHEET, "build sheet (TOML) of all"), *nouns])
    if what is None:
        return
    snapshot = screen.status.snapshot
    text = await screen.live.carry_out("Laying it out", lambda: export(snapshot, what))
    name = "build.toml" if what == SHEET else f"{what.replace(' ', '-')}.csv"
    await write_file(screen, f"Export {what}", name, text)
