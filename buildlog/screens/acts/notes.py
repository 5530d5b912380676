"""A dated note on the thing under the cursor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.notes import AddNote
from buildlog.proposals.nouns import FORMS
from buildlog.screens.naming import names_of

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen


async def add_note(screen: LiveScreen, about: str = "") -> None:
    """`about` as it is typed: ``part FL07``, ``printer BIG``, ``TOE R.2``; empty: of the day."""
    if screen.status is None:
        return
    snapshot = screen.status.snapshot
    coded = [noun for noun in FORMS if FORMS[noun].KEY == ("code",)]
    names = [f"{noun} {code}" for noun in coded for code in names_of(snapshot, noun)]
    await screen.ask(
        AddNote,
        f"A note{f' on {about}' if about else ''}",
        values={"about": about},
        only=("text", "about", "photo"),
        completions={"about": (*names, *names_of(snapshot, "position"))},
    )
