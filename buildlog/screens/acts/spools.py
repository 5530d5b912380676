"""Load a spool on a head, weigh a spool."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.printers import LoadSpool
from buildlog.proposals.spools import WeighSpool
from buildlog.screens.acts.named import spool_of
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import day, grams

if TYPE_CHECKING:
    from collections.abc import Iterable

    from buildlog.screens.base import LiveScreen
    from buildlog.status.accounts import SpoolState
    from buildlog.status.machines import MachineState
    from buildlog.status.status import Status


async def load_spool(screen: LiveScreen, printer_id: int | None = None, spool_id: int | None = None) -> None:
    """Choose what is not known yet of head and spool, and load it."""
    status = screen.status
    if status is None:
        return
    heads = _free_heads(status, printer_id)
    head = await screen.choose(
        "Load a spool where?", heads, empty=NO_HEAD if status.machines.printers else NO_PRINTER
    )
    if head is None:
        return
    printer_code, number = head
    if spool_id is None:
        chosen = await screen.pick(
            f"Which spool on {printer_code}?", _for_head(status, printer_code, number), empty=NO_SPOOL
        )
        if chosen is None:
            return
        spool_id = chosen
    await screen.wish(LoadSpool(printer=printer_code, spool=spool_of(status, spool_id).code, head=number))


def _feeding(status: Status, machine: MachineState) -> set[int]:
    """The heads of a printer that feed what it prints."""
    if machine.running is None:
        return set()
    return {feed.head for feed in status.snapshot.feeds_of_job.get(machine.running.job_id, ())}


async def weigh_spool(screen: LiveScreen, spool_id: int | None = None) -> None:
    """Choose a spool where none is known, and type what the scale reads."""
    status = screen.status
    if status is None:
        return
    if spool_id is None:
        choices = spool_choices(status, status.accounts.spools.values(), loaded_first=True)
        spool_id = await screen.pick("Weigh which spool?", choices, empty=NO_SPOOL)
    if spool_id is None:
        return
    code = spool_of(status, spool_id).code
    await screen.ask(
        WeighSpool, f"What does the scale read for {code}?", values={"spool": code}, only=("gross", "cause")
    )


NO_PRINTER = "There is no printer yet: add one on Things ({go_things}), with {add_thing}."
NO_HEAD = "Each head feeds a running print: swap its spool on Prints, with {swap_spool}, or finish the print first."
NO_SPOOL = "There is no spool yet: receive some on Stock, with {receive_order}."


def spool_choices(status: Status, states: Iterable[SpoolState], loaded_first: bool = False) -> list[Choice[int]]:
    """Spools in use, those on a printer first or last, open ones before sealed ones, then by code."""
    usable = [(spool_of(status, state.spool_id), state) for state in states if state.usable]
    usable.sort(key=lambda pair: ((pair[1].loaded_on is None) is loaded_first, pair[1].sealed, pair[0].code))
    return [
        Choice(spool.id, spool.code, told_of_spool(status, state), Tone.CAUTION if state.wet else Tone.FAINT)
        for spool, state in usable
    ]


def told_of_spool(status: Status, state: SpoolState) -> str:
    """``Amber PLA, 412 g ± 9 g, on BIG, weighed Sat 31 Oct``, or that it must be dried first."""
    snapshot = status.snapshot
    parts = [snapshot.material[state.material_id].name, f"{grams(state.net_mg)} ± {grams(state.pm_mg)}"]
    if state.loaded_on is not None:
        parts.append(f"on {snapshot.printer[state.loaded_on[0]].code}")
    if state.sealed:
        parts.append("sealed")
    if state.wet:
        parts.append("dry it first")
    elif state.last_reading_at is not None:
        parts.append(f"weighed {day(state.last_reading_at, snapshot.settings.home_zone)}")
    return ", ".join(parts)


def _for_head(status: Status, printer_code: str, head: int) -> list[Choice[int]]:
    """Spools that are not on this printer and feed no print; first those of the material that is on the head now."""
    on_it = next(machine.spools for machine in status.machines.printers if machine.code == printer_code)
    loaded = {state.spool_id for state in on_it.values()}
    material_id = on_it[head].material_id if head in on_it else None
    feeding = {
        feed.spool_id
        for machine in status.machines.printers
        if machine.running is not None
        for feed in status.snapshot.feeds_of_job.get(machine.running.job_id, ())
        if feed.to_at is None
    }
    free = [state for state in status.accounts.spools.values() if state.spool_id not in loaded | feeding]
    alike = spool_choices(status, (state for state in free if state.material_id == material_id))
    others = spool_choices(status, (state for state in free if state.material_id != material_id))
    return [*alike, *others]


def _free_heads(status: Status, printer_id: int | None) -> list[Choice[tuple[str, int]]]:
    """Heads that no running print feeds from, of every printer or of the one: what is on them now."""
    found = []
    for machine in status.machines.printers:
        if printer_id is not None and machine.printer_id != printer_id:
            continue
        heads = status.snapshot.printer[machine.printer_id].heads
        for head in sorted({*range(1, heads + 1)} - _feeding(status, machine)):
            name = machine.code if heads == 1 else f"{machine.code} head {head}"
            on_it = machine.spools.get(head)
            held = f"{spool_of(status, on_it.spool_id).code}, {grams(on_it.net_mg)}" if on_it else "nothing loaded"
            found.append(Choice((machine.code, head), name, held))
    return found
