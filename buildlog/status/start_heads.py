"""What the start of a print asks of each head, and which spool is to feed it: of a queued print, a file, or lines."""

from collections.abc import Iterator
from typing import NamedTuple

from buildlog.facts.printing import Feed, FileTool, Job, Printer, PrintFile
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Demand, Revision
from buildlog.proposals.prints import StartPrint
from buildlog.status.piece_hours import current_revisions
from buildlog.status.pools import jobs_under_way
from buildlog.status.spool_account import SpoolState
from buildlog.status.status import Status
from buildlog.terms import JobState


class StartHead(NamedTuple):
    """``material_id`` None: any of the polymer. ``needed_mg`` is 0 where nobody has said it. ``spool`` is the named
    one, else the one that is loaded; None where there is none yet.
    """

    head: int
    material_id: int | None
    polymer: str
    needed_mg: int
    spool: SpoolState | None


class ToStart(NamedTuple):
    """``printer`` None: it is not known which one is meant. ``minutes`` are those of the estimate, which comes from
    ``estimate_from``; 0 where nobody has said it.
    """

    printer: Printer | None
    minutes: int
    estimate_from: str
    heads: tuple[StartHead, ...]


def what_starts(wish: StartPrint, status: Status) -> ToStart:
    """As things stand at the moment of the Status."""
    snapshot = status.snapshot
    file = next((file for file in snapshot.print_files if file.code == wish.file), None)
    job = snapshot.job.get(wish.job or 0)
    printer = _printer(wish, snapshot, job, file)
    job = job or _queued_run(snapshot, file, printer)
    if job is not None:
        minutes, source, asked = job.estimate_minutes, job.estimate_from, _of(snapshot.feeds_of_job.get(job.id, ()))
    elif file is not None:
        minutes, source, asked = file.print_minutes, file.estimate_from, _of(snapshot.tools_of_file[file.id])
    else:
        minutes, source, asked = _of_lines(wish, status)
    if job is None:  # what was queued is started as it was queued
        minutes, source = wish.print_time or minutes, wish.estimate_from or source
        asked = _with_typed(wish, snapshot, asked)
    return ToStart(printer, minutes, source, tuple(_with_spools(wish, status, printer, asked)))


def _printer(wish: StartPrint, snapshot: Snapshot, job: Job | None, file: PrintFile | None) -> Printer | None:
    """The named one, that of the queued print, else the only one that could be meant."""
    live = [printer for printer in snapshot.printers if printer.retired_at is None]
    if wish.printer is not None:
        return next((printer for printer in live if printer.code == wish.printer), None)
    if job is not None and job.printer_id is not None:
        return snapshot.printer[job.printer_id]
    file_id = job.print_file_id if job is not None else file and file.id
    classes = [known.printer_class for known in snapshot.print_files if known.id == file_id]
    able = [printer for printer in live if printer.printer_class in classes] if classes else live
    return able[0] if len(able) == 1 else None


def _queued_run(snapshot: Snapshot, file: PrintFile | None, printer: Printer | None) -> Job | None:
    """The first queued run of the file that the printer may take: a start takes that one."""
    if file is None or printer is None:
        return None
    queued = (job for job in jobs_under_way(snapshot) if job.state is JobState.QUEUED)
    able = (job for job in queued if job.print_file_id == file.id and job.printer_id in (None, printer.id))
    return next(able, None)


class _Asked(NamedTuple):
    material_id: int | None
    polymer: str | None
    part_mg: int
    support_mg: int
    purge_mg: int


_NOTHING = _Asked(None, None, 0, 0, 0)


def _of(rows: "tuple[Feed, ...] | list[Feed] | list[FileTool]") -> dict[int, _Asked]:
    return {r.head: _Asked(r.material_id, r.polymer, r.part_mg, r.support_mg, r.purge_mg) for r in rows}


def _of_lines(wish: StartPrint, status: Status) -> tuple[int, str, dict[int, _Asked]]:
    """Sums of what the revisions of the parts ask; of parts that ask a head for different things the first one's."""
    parts = {part.code: part.id for part in status.snapshot.parts}
    current = current_revisions(status.snapshot, status.now)
    laid = [(current[parts[line.code]], line.quantity) for line in wish.lines if parts.get(line.code) in current]
    asked: dict[int, _Asked] = {}
    for demand, pieces in _demands(status.snapshot, laid):
        before = asked.get(demand.head, _NOTHING._replace(material_id=demand.material_id, polymer=demand.polymer))
        asked[demand.head] = before._replace(
            part_mg=before.part_mg + demand.part_mg * pieces,
            support_mg=before.support_mg + demand.support_mg * pieces,
            purge_mg=before.purge_mg + demand.purge_mg * pieces,
        )
    minutes = sum((revision.print_minutes or 0) * pieces for revision, pieces in laid)
    return minutes, next((revision.figures_from for revision, _ in laid), ""), asked


def _demands(snapshot: Snapshot, laid: list[tuple[Revision, int]]) -> Iterator[tuple[Demand, int]]:
    for revision, pieces in laid:
        for demand in snapshot.demands_of.get(revision.id, ()):
            yield demand, pieces


def _with_typed(wish: StartPrint, snapshot: Snapshot, asked: dict[int, _Asked]) -> dict[int, _Asked]:
    """Typed figures win over those of the file or the parts."""
    found = dict(asked)
    typed = (
        (1, wish.material, wish.grams, wish.support, wish.purge),
        (2, wish.material_2, wish.grams_2, None, wish.purge_2),
    )
    for head, ask, *amounts in typed:
        if ask is None and all(mg is None for mg in amounts):
            continue
        before = found.get(head, _NOTHING)
        if ask is not None:
            material = next((m.id for m in snapshot.materials if m.code == ask.material), None)
            before = before._replace(material_id=material, polymer=ask.polymer)
        known = (before.part_mg, before.support_mg, before.purge_mg)
        part, support, purge = (was if mg is None else mg for mg, was in zip(amounts, known, strict=True))
        found[head] = _Asked(before.material_id, before.polymer, part, support, purge)
    return found


def _with_spools(
    wish: StartPrint, status: Status, printer: Printer | None, asked: dict[int, _Asked]
) -> Iterator[StartHead]:
    """Named spools go to the heads in order."""
    loaded = status.accounts.set_up[printer.id].loaded if printer is not None else {}
    by_code = {spool.code: spool.id for spool in status.snapshot.spools}
    for index, (head, one) in enumerate(sorted(asked.items())):
        named = by_code.get(wish.spools[index]) if index < len(wish.spools) else None
        known = status.snapshot.material.get(one.material_id or 0)
        yield StartHead(
            head,
            one.material_id,
            known.polymer if known is not None else one.polymer or "",
            one.part_mg + one.support_mg + one.purge_mg,
            status.accounts.spools.get(named or loaded.get(head) or 0),
        )
