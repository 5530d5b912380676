"""Writes a text into a file that a person names; what stands there is written over only after a yes."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from buildlog.errors import BuildlogError
from buildlog.files import write_text
from buildlog.proposals.field import Field, Kind
from buildlog.screens.dialogs.ask_fields import AskFields
from buildlog.screens.dialogs.confirm import Confirm
from buildlog.screens.widgets.tones import Tone

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen

WHERE = Field("path", "into file", Kind.TEXT, True)


async def write_file(screen: LiveScreen, title: str, name: str, text: str) -> None:
    """`name` is offered as the path."""
    values = await screen.app.push_screen_wait(AskFields(title, [WHERE], values={"path": name}))
    if values is None:
        return
    path = path_of(values["path"])
    if os.path.lexists(path):
        over = Confirm("Write over it?", [f"{path.absolute()} is there already."], yes="write over it", careful=True)
        if not await screen.app.push_screen_wait(over):
            return
    try:
        write_text(text, path)
    except BuildlogError as error:
        screen.live.tell(str(error), Tone.BAD)
    else:
        screen.live.tell(f"Wrote {path.absolute()}.", Tone.GOOD)


def path_of(typed: str) -> Path:
    """`~` is the home folder, as in a shell."""
    return Path(os.path.expanduser(typed))
