"""A printer as a line: what it does, what is loaded, when it is done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.acts.named import spool_of
from buildlog.screens.lines import BETWEEN, line, soon
from buildlog.screens.widgets.rows import Cell, GridRow, SpanCell
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import grams

if TYPE_CHECKING:
    from buildlog.status.machines import MachineState, Offer
    from buildlog.status.status import Status


def machine_row(status: Status, machine: MachineState) -> GridRow:
    """Key ``printer:ID``."""
    zone = status.snapshot.settings.home_zone
    doing, tone, when = "free", Tone.GOOD, ""
    if machine.running is not None:
        ends = soon(machine.running.ends_at, status.now, zone)
        past = machine.running.past_end
        doing, tone = machine.job_name, Tone.ACCENT if past else Tone.STRONG
        when = f"over since {ends}" if past else f"done {ends}"
    elif machine.set_up.is_down:
        doing, tone = machine.down_text, Tone.BAD
    spans = [(f"{'✗ ' if tone is Tone.BAD else ''}{doing}", tone), (_beside(status, machine), Tone.FAINT)]
    right = Cell(when, Tone.CAUTION if machine.running and machine.running.past_end else Tone.PLAIN)
    return line(f"printer:{machine.printer_id}", Cell(machine.code, Tone.STRONG), SpanCell(tuple(spans)), right)


def _beside(status: Status, machine: MachineState) -> str:
    """What is loaded, and what waits for a free printer."""
    loaded = loaded_text(status, machine)
    parts = [loaded] if loaded else []
    if machine.is_free and machine.next_job_id is not None:
        from buildlog.screens.acts.named import job_of
        from buildlog.status.machines import job_name

        parts.append(f"next: {job_name(status.snapshot, job_of(status, machine.next_job_id))}")
    return "".join(BETWEEN + part for part in parts)


def loaded_text(status: Status, machine: MachineState) -> str:
    """``A1 PLA-AMBER 620 g``, heads after each other; a spool named after its material says it once."""
    return ", ".join(
        f"{_spool_name(status, state.spool_id, state.material_id)} {grams(state.free_mg)}"
        for state in machine.spools.values()
    )


def _spool_name(status: Status, spool_id: int, material_id: int) -> str:
    code, material = spool_of(status, spool_id).code, status.snapshot.material[material_id].code
    return code if code.startswith(material) else f"{code} {material}"


def spools_told(offer: Offer) -> tuple[str, Tone]:
    """What the spools of an offer bear, the one that is short first."""
    texts = [check.text for check in sorted(offer.spools, key=lambda check: check.enough)]
    text = "; ".join(texts) + (", load it first" if offer.to_load else "")
    short = not all(check.enough for check in offer.spools)
    return (f"! {text}", Tone.CAUTION) if short else (text, Tone.FAINT)
