"""Start a print: what waits in the queue, or one of the likeliest ready files; queue a file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from buildlog.proposals.prints import QueuePrint, StartPrint
from buildlog.screens.acts.named import file_of, job_of, said_cautions, spool_of
from buildlog.screens.acts.spools import NO_PRINTER
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.dialogs.confirm import Confirm
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import near

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen
    from buildlog.status.machines import MachineState, Offer
    from buildlog.status.status import Status

NEAR, UNATTENDED, TYPED = "near", "unattended", "typed"
LIKELY = 3


@dataclass(frozen=True, slots=True)
class ToStart:
    """What could be started: the wish's values, how it is called, what is said of it, and its cautions."""

    values: dict[str, Any]
    name: str
    told: str
    cautions: tuple[str, ...]
    tone: Tone = Tone.FAINT


ELSE = ToStart({}, "something else", "any file, or lines that you type", ())


async def start_print(screen: LiveScreen, printer_id: int | None = None, file_id: int | None = None) -> None:
    """Choose among the queue and the likeliest files of the free printers, say who stays near, and start."""
    status = screen.status
    if status is None:
        return
    if not status.machines.printers:
        screen.live.tell(NO_PRINTER, Tone.CAUTION)
        return
    likely = [*what_to_start(status, printer_id, file_id), ELSE]
    none_free = "" if any(m.is_free for m in status.machines.printers) else "No printer is free."
    choices = [Choice(one, one.name, one.told, one.tone) for one in likely]
    chosen = await screen.pick("Start what?", choices, caution=none_free)
    if chosen is ELSE:
        await ask_start(screen, {"printer": _code(status, printer_id)})
    elif chosen is not None:
        await start(screen, chosen)


async def start(screen: LiveScreen, chosen: ToStart) -> None:
    """Ask who stays near, saying the cautions, and start it."""
    status = screen.status
    if status is None:
        return
    how = await screen.pick(
        f"Start {chosen.name}?  {chosen.told}",
        [
            Choice(NEAR, "start, I stay near"),
            Choice(UNATTENDED, "start, nobody is near", "unattended"),
            Choice(TYPED, "change something first", "printer, spools, when it was started"),
        ],
        caution=said_cautions(status, chosen.cautions),
    )
    if how == TYPED:
        await ask_start(screen, chosen.values)
    elif how is not None:
        await screen.wish(StartPrint(**chosen.values, unattended=how == UNATTENDED))


async def ask_start(screen: LiveScreen, values: dict[str, Any]) -> None:
    """The whole form; a print that is over already can be told with its end."""
    job = ("job",) if values.get("job") is not None else ("file", "lines", "print_time", "material", "grams")
    only = (*job, "printer", "spools", "unattended", "ended", "anyway")
    await screen.ask(StartPrint, "Start a print", values=values, only=only, sure=_spools_will_do)


async def _spools_will_do(screen: LiveScreen, wish: StartPrint) -> bool:
    """Whether no spool is in question, or the person starts all the same."""
    from buildlog.status.said_before import spools_in_question

    doubts = spools_in_question(wish, screen.status) if screen.status is not None and not wish.anyway else ()
    if not doubts:
        return True
    sure = Confirm("Start it all the same?", list(doubts), yes="start it", careful=True)
    return await screen.app.push_screen_wait(sure) is True


async def queue_print(screen: LiveScreen, file_id: int | None = None) -> None:
    """Put a ready file in the queue, as often as typed, for a printer or for any that can."""
    status = screen.status
    if status is None:
        return
    file = file_of(status, file_id).code if file_id is not None else None
    likely = next(iter(status.machines.offers), None)
    file = file or (file_of(status, likely.print_file_id).code if likely else None)
    only = ("file", "printer", "times", "rank", "lines", "print_time", "material", "grams")
    await screen.ask(QueuePrint, "Queue a print", values={"file": file}, only=only)


def what_to_start(status: Status, printer_id: int | None = None, file_id: int | None = None) -> list[ToStart]:
    """Of free printers: first what waits in their queues, then their likeliest files, at most three files."""
    all_free = [m for m in status.machines.printers if m.is_free]
    free = [m for m in all_free if m.printer_id == printer_id] or all_free
    if file_id is not None:
        ids = {machine.printer_id for machine in free}
        asked = [o for o in status.machines.offers if o.print_file_id == file_id and o.printer_id in ids]
        return [of_offer(status, offer) for offer in asked]
    queued: dict[int, MachineState] = {}
    for machine in free:
        if machine.next_job_id is not None:
            queued.setdefault(machine.next_job_id, machine)
    each = [status.machines.likely(machine.printer_id) for machine in free]
    files: dict[int, Offer] = {}
    for offer in (found[i] for i in range(LIKELY) for found in each if i < len(found)):
        files.setdefault(offer.print_file_id, offer)
    waiting = [_queued(status, job_id, machine) for job_id, machine in queued.items()]
    return waiting + [of_offer(status, offer) for offer in list(files.values())[:LIKELY]]


def of_offer(status: Status, offer: Offer) -> ToStart:
    """A ready file on a printer, with the spools that it is to be fed from."""
    file = file_of(status, offer.print_file_id)
    printer = status.snapshot.printer[offer.printer_id]
    spools = tuple(spool_of(status, c.spool_id).code for c in offer.spools if c.spool_id is not None)
    values: dict[str, Any] = {"file": file.code, "printer": printer.code}
    if len(spools) == len(offer.spools):
        values["spools"] = spools
    ends = near(offer.ends_at, status.now, status.snapshot.settings.home_zone)
    load = f"load {' '.join(spools)}, " if offer.to_load and spools else ""
    tight = not all(check.enough for check in offer.spools)
    told = f"on {printer.code}, ends {ends}; {load}{offer.spool_text}"
    return ToStart(values, file.name or file.code, told, offer.cautions, Tone.CAUTION if tight else Tone.FAINT)


def _queued(status: Status, job_id: int, machine: MachineState) -> ToStart:
    from buildlog.status.on_printers import job_name
    from buildlog.status.said_before import cautions_of, spools_in_question

    job = job_of(status, job_id)
    told = f"on {machine.code}, next in the queue"
    wish = StartPrint(job=job.id, printer=machine.code, unattended=True)  # the fire is told before that is asked
    doubts = spools_in_question(wish, status)
    told = "; ".join((told, *doubts))
    values = {"job": job.id, "printer": machine.code}
    tone = Tone.CAUTION if doubts else Tone.FAINT
    return ToStart(values, job_name(status.snapshot, job), told, cautions_of(wish, status), tone)


def _code(status: Status, printer_id: int | None) -> str | None:
    return status.snapshot.printer[printer_id].code if printer_id is not None else None
