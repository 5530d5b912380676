"""What stands on Today while there is no part yet: how to begin, and what enter does on each of the lines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.lines import line, section
from buildlog.screens.widgets.rows import Cell, GridRow
from buildlog.screens.widgets.tones import Tone

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status

LINES = (
    ("begin:ask", "begin", "six questions lead to what holds it first", "enter"),
    ("begin:read", "read files", "a build sheet, your lists; buildlog read does too", "enter"),
    ("begin:demo", "look first", "an invented build, elsewhere: buildlog demo", "in the shell"),
    ("begin:hand", "by hand", "each thing by its form; buildlog add does too", "9 Things"),
)
DEMO = (
    "Leave, then in the shell:",
    "buildlog demo",
    "It opens an invented build in a file of its own, laid around today; `buildlog demo --into FILE` keeps it. "
    "Nothing of yours is touched.",
)


def is_beginning(status: Status) -> bool:
    """Until there is a part there is nothing that could be held."""
    return all(part.retired_at is not None for part in status.snapshot.parts)


def beginning_rows(status: Status) -> list[GridRow]:
    """Key ``begin:WHAT``; a beginning that was left is offered alone."""
    begun = any(build.retired_at is None for build in status.snapshot.builds)
    if begun:
        text = "on with the questions, to what holds your build"
        return section("begin", "No part yet", [line("begin:ask", Cell("go on", Tone.ACCENT), text, "enter")])
    rows = [
        line(key, Cell(word, Tone.ACCENT), text, Cell(key_told, Tone.FAINT)) for key, word, text, key_told in LINES
    ]
    return section("begin", "Nothing is on the record yet", rows)


async def act_on_beginning(screen: LiveScreen, what: str) -> None:
    """Enter on a line of it."""
    if what == "ask":
        from buildlog.screens.acts.six_questions import six_questions

        await six_questions(screen)
    elif what == "hand":
        await screen.live.lead_to_list("build")
    elif what == "read":
        from buildlog.screens.acts.reading import read_files

        await read_files(screen)
    else:
        from buildlog.screens.dialogs.say import Say

        await screen.app.push_screen_wait(Say("Look at the demo first", DEMO))
