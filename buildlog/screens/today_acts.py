"""What enter and the keys of the bench do with the line under the cursor of Today."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING

from buildlog.screens.acts.bench import record_fit, tick_step
from buildlog.screens.acts.orders import receive_order
from buildlog.screens.acts.shots import tell_of_shot
from buildlog.screens.acts.spools import weigh_spool
from buildlog.screens.beginning import act_on_beginning
from buildlog.screens.today_here import doable_here
from buildlog.screens.widgets.grid import Grid

if TYPE_CHECKING:
    from buildlog.screens.today import Today
    from buildlog.status.blocker import Thing


async def tick_here(screen: Today) -> None:
    """The steps that are marked one after the other, else the one under the cursor, or one of those that are open."""
    await _each_here(screen, "step", tick_step)


async def fit_here(screen: Today) -> None:
    await _each_here(screen, "fit test", record_fit)


async def _each_here(screen: Today, noun: str, act: Callable[..., Awaitable[object]]) -> None:
    status, marked = screen.status, screen.marked_ids("doable")
    meant = [status.doable[index] for index in marked] if status is not None else []  # before one of them is done
    meant = meant or [found for found in (doable_here(screen),) if found is not None]
    found = [one for one in meant if one.about.noun == noun]
    for one in found:
        await act(screen, one.position_id, one.about.id)
    if not found:
        await act(screen)
    for grid in screen.query(Grid):
        grid.unmark()


async def act_on(screen: Today, key: str) -> None:
    """Do what the line is about where one key can; else go to the screen where it is at home."""
    noun, _, rest = key.partition(":")
    if noun in ("offer", "night"):
        screen.action_start_print()
    elif noun == "printer":
        await _act_on_printer(screen, int(rest))
    elif noun == "order":
        await receive_order(screen, int(rest))
    elif noun == "shot":
        await tell_of_shot(screen, int(rest))
    elif noun == "spool":
        await weigh_spool(screen, int(rest))
    elif noun == "alert" and screen.status is not None:
        about = screen.status.alerts[int(rest)].about
        await _lead_to(screen, about)
    elif noun == "doable":
        await _act_on_doable(screen)
    elif noun == "catch-up":
        await screen.live.action_go("catch_up")
    elif noun == "begin":
        await act_on_beginning(screen, rest)
    elif noun in ("position", "curing", "assembly"):
        await screen.live.lead_to("assembly" if noun == "assembly" else "position", int(rest))


async def _act_on_printer(screen: Today, printer_id: int) -> None:
    """Off the bed, or started; what runs is looked at on Prints."""
    status = screen.status
    machine = next((m for m in status.machines.printers if m.printer_id == printer_id), None) if status else None
    if machine is None:
        return
    if machine.running is not None and machine.running.past_end:
        screen.action_finish_print()
    elif machine.is_free:
        screen.action_start_print()
    else:
        await screen.live.lead_to("printer", printer_id)


async def _act_on_doable(screen: Today) -> None:
    found = doable_here(screen)
    if found is None:
        return
    if found.about.noun == "step":
        await tick_step(screen, found.position_id, found.about.id)
    elif found.about.noun == "fit test":
        await record_fit(screen, found.position_id, found.about.id)
    elif found.about.noun == "shot":
        await tell_of_shot(screen, found.about.id)
    elif found.position_id is not None:
        await screen.live.lead_to("position", found.position_id)
    else:
        await _lead_to(screen, found.about)


async def _lead_to(screen: Today, about: Thing | None) -> None:
    if about is not None:
        await screen.live.lead_to(about.noun, about.id)
