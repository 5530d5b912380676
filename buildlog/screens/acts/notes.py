"""A dated note on the thing under the cursor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.notes import AddNote

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen


async def add_note(screen: LiveScreen, about: str = "") -> None:
    """`about` as it is typed: ``part FL07``, ``printer BIG``, ``TOE R.2``; empty: of the day."""
    await screen.ask(
        AddNote, f"A note{f' on {about}' if about else ''}", values={"about": about}, only=("text", "about", "photo")
    )
