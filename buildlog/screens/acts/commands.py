"""Any daily action by its form, as the shell knows it by its command; what stands under the cursor is filled in."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from buildlog.proposals.field import Field, fields_of
from buildlog.screens.acts.named import said_cautions
from buildlog.status.notes import key_typed
from buildlog.status.said_before import cautions_of

if TYPE_CHECKING:
    from buildlog.proposals.verbs import Verb
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status


async def ask_command(screen: LiveScreen, verb: Verb) -> None:
    status = screen.status
    if status is None:
        return
    fields = fields_of(verb.kind)

    def heed(given: Mapping[str, Any]) -> str:
        """The cautions of what is filled in, as soon as nothing is missing."""
        if any(field.required and given.get(field.name) is None for field in fields):
            return ""
        values = {name: value for name, value in given.items() if name != "at" and value is not None}
        return said_cautions(status, cautions_of(verb.kind(**values), status))

    await screen.ask(
        verb.kind,
        re.split("[.,:;]", verb.told)[0],
        values=_from_the_cursor(screen, status, fields),
        only=[field.name for field in fields],
        heed=heed,
    )


def _from_the_cursor(screen: LiveScreen, status: Status, fields: tuple[Field, ...]) -> dict[str, Any]:
    """The first field that refers to such a thing as stands under the cursor."""
    here = screen.thing_here
    if here is None:
        return {}
    noun, key = here[0], key_typed(status.snapshot, *here)
    field = next((field for field in fields if noun in field.refers.split(" or ")), None)
    return {} if field is None or not key else {field.name: field.parse(key)}
