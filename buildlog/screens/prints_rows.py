"""The lines of Prints, section by section, from a Status."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.acts.ending import recent
from buildlog.screens.acts.named import file_of, job_of
from buildlog.screens.lines import BETWEEN, line, none, section, soon
from buildlog.screens.machine_rows import machine_row, spools_told
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.rows import Cell, GridRow, SpanCell
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import JobState
from buildlog.wording import count, grams, hours

if TYPE_CHECKING:
    from buildlog.facts.printing import Job
    from buildlog.status.hours import PrinterSet
    from buildlog.status.machines import Offer
    from buildlog.status.status import Status
    from buildlog.terms import Moment

RECENT = 20
NO_PRINTER = "None yet: add one on Things."


def headline(status: Status) -> list[Fact]:
    """Hours left with their spread, what usually comes on top, what runs and waits."""
    left = status.hours
    spread = f"{hours(left.total_minutes)} ({hours(left.low_minutes)} to {hours(left.high_minutes)})"
    usual = " usual" if left.on_top.usual else ""
    return [
        Fact("hours left", spread if left.total_minutes else "none"),
        Fact("on top", f"× {left.on_top.factor:.1f}{usual}"),
        Fact("running", str(len(left.running))),
        Fact("queued", str(len(left.queued))),
    ]


def top_rows(status: Status) -> list[GridRow]:
    """Printers, and what is ready to run."""
    machines = [machine_row(status, machine) for machine in status.machines.printers]
    nothing = "No file is ready for what is still to print."
    return [
        *section("machines", "On the printers", machines or [none("printer", NO_PRINTER)]),
        *section("ready", "Ready to run", _ready(status) or [none("offer", nothing)]),
    ]


def left_rows(status: Status) -> list[GridRow]:
    """The queue, and hours left by the printers that can."""
    return [
        *section("queue", "Queue", [_queued(status, i) for i in range(len(status.hours.queued))]),
        *section("hours", "Print hours left", _hours(status)),
    ]


def right_rows(status: Status) -> list[GridRow]:
    """The prints that ended last."""
    return section("recent", "Ended last", [_ended(status, job, at) for job, at in recent(status)[:RECENT]])


def _queued(status: Status, index: int) -> GridRow:
    from buildlog.status.on_printers import job_name

    queued = status.hours.queued[index]
    job = job_of(status, queued.job_id)
    able = [status.snapshot.printer[printer_id].code for printer_id in queued.printer_ids]
    told = f"{job_name(status.snapshot, job)}{BETWEEN}{', '.join(able) or 'no printer can'}"
    what = told if able else Cell(told, Tone.BAD)
    return line(f"job:{job.id}", f"print {job.id}", what, hours(queued.minutes))


def _hours(status: Status) -> list[GridRow]:
    rows = [_set(status, index, one) for index, one in enumerate(status.hours.sets) if one.minutes]
    if status.hours.no_figures:
        names = ", ".join(status.snapshot.part[part_id].code for part_id, _ in status.hours.no_figures)
        rows.append(line("hours:unknown", "not told", Cell(f"nobody has said how long: {names}", Tone.CAUTION)))
    return rows


def _set(status: Status, index: int, one: PrinterSet) -> GridRow:
    """The printers that can take these hours, and what they are made of."""
    codes = [status.snapshot.printer[printer_id].code for printer_id in one.printer_ids]
    told = [("running", one.running_minutes), ("queued", one.queued_minutes), ("to print", one.to_print_minutes)]
    parts = ", ".join(f"{name} {hours(minutes)}" for name, minutes in told if minutes)
    if not codes:
        return line(f"hours:{index}", Cell("none can", Tone.BAD), parts, hours(one.minutes))
    thing, any_of = (codes[0], "") if len(codes) == 1 else ("any of", f"{', '.join(codes)}{BETWEEN}")
    return line(f"hours:{index}", thing, any_of + parts, hours(one.minutes))


def _ready(status: Status) -> list[GridRow]:
    """Each file once, on the printer that is free first, in allotment order."""
    free = {machine.printer_id for machine in status.machines.printers if machine.is_free}
    offers: dict[int, Offer] = {}
    for offer in sorted(status.machines.offers, key=lambda o: (o.printer_id not in free, not o.carried)):
        offers.setdefault(offer.print_file_id, offer)
    order = sorted(offers.values(), key=lambda offer: (offer.rank, offer.print_file_id))
    return [_offer(status, offer, offer.printer_id in free) for offer in order]


def _offer(status: Status, offer: Offer, is_free: bool) -> GridRow:
    """Key ``offer:PRINTER-FILE``."""
    file = file_of(status, offer.print_file_id)
    code = status.snapshot.printer[offer.printer_id].code
    what = (
        (file.name or file.code, Tone.STRONG if is_free else Tone.PLAIN),
        (BETWEEN, Tone.FAINT),
        spools_told(offer),
        (BETWEEN + offer.lines, Tone.FAINT),
    )
    key = f"offer:{offer.printer_id}-{offer.print_file_id}"
    return line(key, code, SpanCell(what), hours(offer.minutes))


def _ended(status: Status, job: Job, at: Moment) -> GridRow:
    """Key ``job:ID``: what came of it."""
    from buildlog.status.on_printers import job_name

    zone = status.snapshot.settings.home_zone
    failed = job.state is JobState.FAILED
    lines = status.snapshot.lines_of_job.get(job.id, ())
    drawn = sum(feed.real_mg or 0 for feed in status.snapshot.feeds_of_job.get(job.id, ()))
    pieces = sum(one.quantity - one.scrapped for one in lines if one.part_id is not None)
    told = [job.cause or "failed"] if failed else [count(pieces, "piece")]
    told += [grams(drawn)] if drawn else []
    told += [count(job.restarts, "restart")] if job.restarts else []
    beside = BETWEEN + ", ".join(told)
    what = ((job_name(status.snapshot, job), Tone.PLAIN), (beside, Tone.BAD if failed else Tone.FAINT))
    thing = Cell(f"print {job.id}", Tone.BAD) if failed else f"print {job.id}"
    return line(f"job:{job.id}", thing, SpanCell(what), soon(at, status.now, zone))
