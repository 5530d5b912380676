"""What happens to a spool beside printing: dried, opened, sealed, emptied, new ones received."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.spools import DrySpool, EmptySpool, OpenSpool, ReceiveSpool, SealSpool
from buildlog.screens.acts.named import said_cautions, spool_of
from buildlog.screens.acts.spools import NO_SPOOL, spool_choices
from buildlog.screens.dialogs.choose import Choice

if TYPE_CHECKING:
    from collections.abc import Callable

    from buildlog.screens.base import LiveScreen
    from buildlog.status.accounts import SpoolState

NOW, TYPED = "now", "typed"


async def dry_spool(screen: LiveScreen, spool_id: int | None = None) -> None:
    """The wet ones first; how long where it was not as the material asks."""
    spool_id = await _one(screen, "Which spool came out of the dryer?", spool_id, lambda state: not state.wet)
    if spool_id is None or screen.status is None:
        return
    status = screen.status
    code = spool_of(status, spool_id).code
    how = await screen.pick(
        f"{code} was dried:",
        [Choice(NOW, "came out just now", "as its material asks"), Choice(TYPED, "earlier, or not as long")],
        caution=said_cautions(status, ["drying"]),
    )
    if how == NOW:
        await screen.wish(DrySpool(spool=code))
    elif how == TYPED:
        await screen.ask(DrySpool, f"{code} was dried", values={"spool": code})


async def open_or_seal(screen: LiveScreen, spool_id: int | None = None) -> None:
    """A sealed spool is opened, an open one sealed."""
    spool_id = await _one(screen, "Open or seal which spool?", spool_id, lambda state: not state.sealed)
    if spool_id is None or screen.status is None:
        return
    code = spool_of(screen.status, spool_id).code
    sealed = screen.status.accounts.spools[spool_id].sealed
    await screen.wish(OpenSpool(spool=code) if sealed else SealSpool(spool=code))


async def empty_spool(screen: LiveScreen, spool_id: int | None = None) -> None:
    """Used up; the weight of the empty reel makes its tare known."""
    spool_id = await _one(screen, "Which spool is used up?", spool_id, lambda state: state.net_mg)
    if spool_id is not None and screen.status is not None:
        code = spool_of(screen.status, spool_id).code
        await screen.ask(EmptySpool, f"{code} is used up", values={"spool": code})


async def receive_spool(screen: LiveScreen, material_id: int | None = None) -> None:
    """Spools that came without an order."""
    if screen.status is None:
        return
    code = screen.status.snapshot.material[material_id].code if material_id is not None else None
    only = ("material", "packs", "codes", "content", "tare", "price", "box")
    await screen.ask(ReceiveSpool, "Which spools came?", values={"material": code, "packs": 1}, only=only)


async def _one(
    screen: LiveScreen, title: str, known: int | None, order: Callable[[SpoolState], object]
) -> int | None:
    """The known one, else one of those in use."""
    status = screen.status
    if status is None or known is not None:
        return known
    choices = spool_choices(status, status.accounts.spools.values())
    choices.sort(key=lambda choice: order(status.accounts.spools[choice.value]))  # type: ignore[arg-type,return-value]  # what sorts
    return await screen.pick(title, choices, empty=NO_SPOOL)
