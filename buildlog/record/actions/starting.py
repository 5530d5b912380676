"""Starting a print: which one on which printer with which spools, and what stands against it."""

from sqlmodel import col

from buildlog.errors import BadWish, Refused
from buildlog.facts.capabilities import words_of
from buildlog.proposals.prints import StartPrint, SwapSpool
from buildlog.record.actions.feeds import asked, heads_of, matches, refuse_spool_busy
from buildlog.record.actions.jobs import in_state
from buildlog.record.actions.overruling import unless
from buildlog.record.actions.plans import add_job, plan_of
from buildlog.record.actions.set_up import loaded_spool, nozzle_um
from buildlog.record.tables.printing import Feed, Job, JobLine, Printer, PrintFile
from buildlog.record.tables.stock import Material, Spool
from buildlog.record.tables.tree import Part
from buildlog.record.writer import Work
from buildlog.terms import JobState, Purpose
from buildlog.wording import mm


def job_to_start(wish: StartPrint, work: Work) -> tuple[Job, Printer]:
    """The queued print that is meant, or a new one; and the printer."""
    if wish.job is not None:
        if wish.file or wish.lines or wish.what:
            raise BadWish((("job", "name a queued print, or what to print, not both"),))
        job = in_state(work, wish.job, JobState.QUEUED)
        return job, _printer(wish, work, job.printer_id, job.print_file_id)
    file_id = work.by_code(PrintFile, wish.file).id if wish.file else None
    printer = _printer(wish, work, None, file_id)
    queued = _queued_run(work, file_id, printer, Purpose(wish.purpose))
    return queued or add_job(work, plan_of(wish, work), Purpose(wish.purpose), printer, None), printer


def _printer(wish: StartPrint, work: Work, planned_id: int | None, file_id: int | None) -> Printer:
    if wish.printer is not None or planned_id is not None:
        printer = work.by_code(Printer, wish.printer) if wish.printer else work.get(Printer, planned_id)
        if printer.retired_at is not None and printer.retired_at <= work.at:
            raise Refused(f"{printer.code} is retired: name another printer.")
        return printer
    able = work.all(Printer, retired_at=None)
    if file_id is not None:
        able = [p for p in able if p.printer_class == work.get(PrintFile, file_id).printer_class]
    if len(able) != 1:
        raise BadWish((("printer", f"name the printer: {', '.join(p.code for p in able) or 'none can'}"),))
    return able[0]


def _queued_run(work: Work, file_id: int | None, printer: Printer, purpose: Purpose) -> Job | None:
    """The first queued run of the file that this printer may take."""
    if file_id is None:
        return None
    able = [
        job
        for job in work.all(Job, print_file_id=file_id, state=JobState.QUEUED)
        if job.printer_id in (None, printer.id)
        and all(line.purpose is purpose for line in work.all(JobLine, job_id=job.id))
    ]
    return min(able, key=lambda j: (j.rank is None, j.rank or 0, j.id), default=None)


def refuse_class(work: Work, file_id: int | None, printer: Printer) -> None:
    """A file is prepared for one class of printers."""
    file = work.get(PrintFile, file_id) if file_id else None
    if file is not None and file.printer_class != printer.printer_class:
        raise Refused(
            f"File {file.code} is for class «{file.printer_class}», {printer.code} is of class "
            f"«{printer.printer_class}»: name another printer, or prepare the file for this one."
        )


def refuse_mismatch(wish: StartPrint, work: Work, job: Job, printer: Printer) -> None:
    """Class, heads, nozzle, what its parts need, spools that do not bear it, and whether it may be left alone."""
    refuse_class(work, job.print_file_id, printer)
    heads = heads_of(work, job)
    if heads and max(heads) > printer.heads:
        raise unless("anyway", wish, f"This needs head {max(heads)}, {printer.code} has {printer.heads}.")
    for head in heads:
        has, wanted = nozzle_um(work, printer, head, work.at), _nozzles_wanted(work, job)
        if has is not None and wanted - {has}:
            told = f"This is for a nozzle of {mm(max(wanted - {has}))}, head {head} of {printer.code} has {mm(has)}"
            raise unless("anyway", wish, f"{told}: change the nozzle and say so.")
    _refuse_needs(wish, work, job, printer)
    if wish.unattended and not printer.runs_unattended:
        told = f"{printer.code} is not marked to run unattended: stay with it, or change that first."
        raise unless("anyway", wish, told)
    if wish.spools_short and wish.ended is None and (wish.unattended or not printer.stops_at_filament_end):
        alone = "nobody is near to change it" if wish.unattended else f"{printer.code} does not stop where it ends"
        told = f"No one spool bears this print ({wish.spools_short}), and {alone}: load a fuller spool."
        raise unless("anyway", wish, told)


def _refuse_needs(wish: StartPrint, work: Work, job: Job, printer: Printer) -> None:
    """What a part asks of its printer in words."""
    can = words_of(printer.capabilities)
    for line in work.all(JobLine, col(JobLine.part_id).is_not(None), job_id=job.id):
        part = work.get(Part, line.part_id)
        if missing := words_of(part.needs) - can:
            told = f"{part.code} needs {', '.join(sorted(missing))}, which {printer.code} cannot"
            raise unless("anyway", wish, f"{told}: name another printer.")


def _nozzles_wanted(work: Work, job: Job) -> set[int]:
    file = work.get(PrintFile, job.print_file_id) if job.print_file_id else None
    if file is not None and file.nozzle_um is not None:
        return {file.nozzle_um}
    lines = work.all(JobLine, col(JobLine.part_id).is_not(None), job_id=job.id)
    return {um for line in lines if (um := work.get(Part, line.part_id).nozzle_um) is not None}


def spools_for(wish: StartPrint, work: Work, job: Job, printer: Printer) -> dict[int, Spool]:
    """Named spools in the order of the heads that the print uses, else those loaded."""
    heads = heads_of(work, job)
    if len(wish.spools) > len(heads):
        raise BadWish((("spools", f"this print draws from {len(heads)} only"),))
    named = dict(zip(heads, (work.by_code(Spool, code) for code in wish.spools), strict=False))
    chosen: dict[int, Spool] = {}
    for head, (feed, *_) in heads.items():
        spool = named.get(head) or loaded_spool(work, printer, head, work.at)
        if spool is None:
            raise Refused(f"No spool is loaded on head {head} of {printer.code}: load one, or name it.")
        if spool.id in {other.id for other in chosen.values()}:
            raise BadWish((("spools", f"{spool.code} cannot feed two heads"),))
        if not wish.anyway:
            refuse_other_material(wish, work, feed, spool)
        refuse_spool_busy(work, spool, work.at, wish.ended, feed.id)
        chosen[head] = spool
    return chosen


def refuse_other_material(wish: StartPrint | SwapSpool, work: Work, feed: Feed, spool: Spool) -> None:
    material = work.get(Material, spool.material_id)
    if not matches(feed, material):
        told = f"Head {feed.head} asks for {asked(work, feed)}, {spool.code} is {material.code}: name another spool."
        raise unless("anyway", wish, told)
