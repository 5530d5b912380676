"""What the line under the cursor of Today is about: told with its first data, so no question is loaded here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.status.blocker import Thing

if TYPE_CHECKING:
    from buildlog.screens.today import Today
    from buildlog.status.doable import Doable


def doable_here(screen: Today) -> Doable | None:
    index = screen.cursor_id("doable")
    return screen.status.doable[index] if screen.status is not None and index is not None else None


def thing_behind(screen: Today) -> Thing | None:
    """What the alert or the work under the cursor is about: work at a place is about that."""
    status, found = screen.status, doable_here(screen)
    if found is not None:
        return found.about if found.position_id is None else Thing("position", found.position_id, "")
    alert = screen.cursor_id("alert")
    return status.alerts[alert].about if status is not None and alert is not None else None
