"""Does what a key does, where it was not pressed but clicked or found by its name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.keys import Key, Scope
from buildlog.screens.widgets.line_list import LineList

if TYPE_CHECKING:
    from buildlog.screens.app import Buildlog


async def act(app: Buildlog, key: Key) -> None:
    """A key of a list acts on the list that has the focus, else on the first; others on the screen or the app."""
    screen = app.shown
    if screen is None:
        return
    action = key.action.format(key=key.keys[0])
    if Scope.LIST in key.scopes:
        lists = [app.focused, *screen.query(LineList)]
        found = next((one for one in lists if isinstance(one, LineList) and one.display), None)
        if found is not None:
            found.focus()
            await found.run_action(action)
    elif Scope.EVERYWHERE in key.scopes:
        await app.run_action(action)
    else:
        await screen.run_action(action)
