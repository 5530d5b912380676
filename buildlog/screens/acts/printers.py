"""A printer is down or up again; another nozzle."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.printers import PrinterDown, PrinterUp, SetNozzle
from buildlog.screens.acts.spools import NO_PRINTER
from buildlog.screens.dialogs.choose import Choice

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen
    from buildlog.status.machines import MachineState


async def down_or_up(screen: LiveScreen, printer_id: int | None = None) -> None:
    """Down asks why and until when; one that is down is up again at once."""
    machine = await _printer(screen, "Which printer?", printer_id)
    if machine is None:
        return
    if machine.set_up.is_down:
        await screen.wish(PrinterUp(printer=machine.code))
    else:
        await screen.ask(PrinterDown, f"{machine.code} is down", values={"printer": machine.code})


async def set_nozzle(screen: LiveScreen, printer_id: int | None = None) -> None:
    machine = await _printer(screen, "A nozzle on which printer?", printer_id)
    if machine is not None:
        values = {"printer": machine.code, "nozzle": machine.set_up.nozzle_um}
        await screen.ask(SetNozzle, f"Which nozzle is on {machine.code}?", values=values, only=("nozzle", "head"))


async def _printer(screen: LiveScreen, title: str, printer_id: int | None) -> MachineState | None:
    if screen.status is None:
        return None
    machines = screen.status.machines.printers
    known = next((machine for machine in machines if machine.printer_id == printer_id), None)
    choices = [Choice(m, m.code, m.down_text or m.job_name or "free") for m in machines]
    if known is not None:
        return known
    return await screen.choose(title, choices, empty=NO_PRINTER)
