"""A dated note on the thing under the cursor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.notes import AddNote
from buildlog.proposals.nouns import FORMS
from buildlog.screens.naming import names_of
from buildlog.status.notes import about_of

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen


async def add_note(screen: LiveScreen) -> None:
    """On the thing under the cursor; where there is none, of the day."""
    if screen.status is None:
        return
    snapshot, here = screen.status.snapshot, screen.thing_here
    about = about_of(snapshot, *here) if here is not None else ""
    coded = [noun for noun in FORMS if FORMS[noun].KEY == ("code",)]
    names = [f"{noun} {code}" for noun in coded for code in names_of(snapshot, noun)]
    await screen.ask(
        AddNote,
        f"A note{f' on {about}' if about else ''}",
        values={"about": about},
        only=("text", "about", "photo"),
        completions={"about": (*names, *names_of(snapshot, "position"))},
    )
