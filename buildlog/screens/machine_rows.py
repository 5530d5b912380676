"""A printer as a line: what it does, what is loaded, when it is done."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from buildlog.screens.lines import BETWEEN, line, section, soon
from buildlog.screens.widgets.rows import Cell, GridRow, SpanCell
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import grams

if TYPE_CHECKING:
    from buildlog.facts.snapshot import Snapshot
    from buildlog.status.first_look import FirstLook
    from buildlog.status.machines import MachineState, Offer
    from buildlog.status.on_printers import OnPrinter
    from buildlog.status.status import Status


def machine_row(status: Status, machine: MachineState) -> GridRow:
    """Key ``printer:ID``."""
    tone, when, waits = Tone.STRONG, Cell(""), ""
    if machine.running is not None:
        ends = soon(machine.running.ends_at, status.now, status.snapshot.settings.home_zone)
        past = machine.running.past_end
        tone = Tone.ACCENT if past else Tone.STRONG
        when = Cell(f"over since {ends}", Tone.CAUTION) if past else Cell(f"done {ends}")
    elif machine.is_free and machine.next_job_id is not None:
        from buildlog.status.on_printers import job_name

        waits = f"{BETWEEN}next: {job_name(status.snapshot, status.snapshot.job[machine.next_job_id])}"
    return _row(status.snapshot, machine, tone, when, waits)


def first_rows(look: FirstLook) -> list[GridRow]:
    """The same lines before it is reckoned when their prints will end."""
    zone = look.snapshot.settings.home_zone
    since = {on.printer_id: f"since {soon(on.since, look.now, zone)}" for on in look.printers if on.since}
    return machines_section(
        _row(look.snapshot, on, Tone.STRONG, Cell(since.get(on.printer_id, ""))) for on in look.printers
    )


def machines_section(rows: Iterable[GridRow]) -> list[GridRow]:
    return section("machines", "Machines", list(rows))


def _row(snapshot: Snapshot, on: OnPrinter, running: Tone, when: Cell, waits: str = "") -> GridRow:
    """What it does, with what is loaded and what waits for a free printer beside it."""
    doing = ("free", Tone.GOOD)
    if on.job_id is not None:
        doing = on.job_name, running
    elif on.set_up.is_down:
        doing = f"✗ {on.down_text}", Tone.BAD
    loaded = loaded_text(snapshot, on)
    beside = (f"{BETWEEN}{loaded}" if loaded else "") + waits
    cells = SpanCell((doing, (beside, Tone.FAINT)))
    return line(f"printer:{on.printer_id}", Cell(on.code, Tone.STRONG), cells, when)


def loaded_text(snapshot: Snapshot, on: OnPrinter) -> str:
    """``A1 PLA-AMBER 620 g``, heads after each other; a spool named after its material says it once."""
    return ", ".join(
        f"{_spool_name(snapshot, state.spool_id, state.material_id)} {grams(state.free_mg)}"
        for state in on.spools.values()
    )


def _spool_name(snapshot: Snapshot, spool_id: int, material_id: int) -> str:
    code = next(spool.code for spool in snapshot.spools if spool.id == spool_id)
    material = snapshot.material[material_id].code
    return code if code.startswith(material) else f"{code} {material}"


def spools_told(offer: Offer) -> tuple[str, Tone]:
    """What the spools of an offer bear, the one that is short first."""
    texts = [check.text for check in sorted(offer.spools, key=lambda check: check.enough)]
    text = "; ".join(texts) + (", load it first" if offer.to_load else "")
    short = not all(check.enough for check in offer.spools)
    return (f"! {text}", Tone.CAUTION) if short else (text, Tone.FAINT)
