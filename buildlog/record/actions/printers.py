"""Records the set-up of a printer: spools, nozzle, bed, down and up."""

from buildlog.errors import BadWish, Refused
from buildlog.proposals.printers import LoadSpool, PrinterDown, PrinterUp, SetBed, SetNozzle, UnloadSpool
from buildlog.record.actions.feeds import feed_from_head
from buildlog.record.actions.jobs import job_of, label
from buildlog.record.actions.moments import local
from buildlog.record.actions.set_up import down_since, load, loaded_spool, refuse_head, unload
from buildlog.record.tables.printing import Printer, SetUp
from buildlog.record.tables.stock import Spool
from buildlog.record.writer import Work
from buildlog.terms import Moment, SetUpKind
from buildlog.wording import mm


def load_spool(wish: LoadSpool, work: Work) -> str:
    printer, spool = work.by_code(Printer, wish.printer), work.by_code(Spool, wish.spool)
    refuse_head(printer, wish.head)
    there = loaded_spool(work, printer, wish.head, work.at)
    if there is not None and there.id == spool.id:
        raise Refused(
            f"{spool.code} is loaded on head {wish.head} of {printer.code} already: name another spool or head."
        )
    beside = load(work, printer, wish.head, spool, work.at)
    said = f"Loaded {spool.code} on head {wish.head} of {printer.code}"
    return f"{said} ({', '.join(beside)})." if beside else f"{said}."


def unload_spool(wish: UnloadSpool, work: Work) -> str:
    printer = work.by_code(Printer, wish.printer)
    refuse_head(printer, wish.head)
    spool = loaded_spool(work, printer, wish.head, work.at)
    if spool is None:
        raise Refused(
            f"No spool is loaded on head {wish.head} of {printer.code} {local(work, work.at)}: "
            "load one, or name another head."
        )
    feed = feed_from_head(work, printer, wish.head, work.at)
    if feed is not None:
        raise Refused(
            f"{spool.code} feeds {label(job_of(work, feed.job_id))} at that time: "
            "swap the spool of that print, or finish it first."
        )
    unload(work, printer, wish.head, spool, work.at)
    return f"Unloaded {spool.code} from head {wish.head} of {printer.code}."


def set_nozzle(wish: SetNozzle, work: Work) -> str:
    printer = work.by_code(Printer, wish.printer)
    refuse_head(printer, wish.head)
    _note(work, printer, SetUpKind.NOZZLE, head=wish.head, nozzle_um=wish.nozzle)
    return f"Head {wish.head} of {printer.code} has a nozzle of {mm(wish.nozzle)}."


def set_bed(wish: SetBed, work: Work) -> str:
    printer = work.by_code(Printer, wish.printer)
    _note(work, printer, SetUpKind.BED, text=wish.surface)
    return f"The bed of {printer.code} is {wish.surface}."


def printer_down(wish: PrinterDown, work: Work) -> str:
    printer = work.by_code(Printer, wish.printer)
    if wish.until is not None and wish.until < work.at:
        raise BadWish((("until", f"lies before {local(work, work.at)}, when it went down"),))
    _note(work, printer, SetUpKind.DOWN, until_at=wish.until, text=wish.why)
    until = f" until {local(work, wish.until)}" if wish.until else ""
    return f"{printer.code} is down{until}."


def printer_up(wish: PrinterUp, work: Work) -> str:
    printer = work.by_code(Printer, wish.printer)
    if down_since(work, printer, work.at) is None:
        raise Refused(
            f"{printer.code} is not down {local(work, work.at)}: nothing was changed. Say first when it went down."
        )
    _note(work, printer, SetUpKind.UP)
    return f"{printer.code} is up again."


def _note(
    work: Work,
    printer: Printer,
    kind: SetUpKind,
    head: int = 1,
    nozzle_um: int | None = None,
    until_at: Moment | None = None,
    text: str = "",
) -> None:
    assert printer.id is not None
    work.add(
        SetUp(
            printer_id=printer.id,
            at=work.at,
            kind=kind,
            head=head,
            nozzle_um=nozzle_um,
            until_at=until_at,
            text=text,
        )
    )
