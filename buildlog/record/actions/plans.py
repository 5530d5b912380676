"""Turns what a wish asks to print into the rows of a queued print: lines, feeds and estimates."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from buildlog.errors import BadWish, Refused
from buildlog.proposals.lines import Ask, Line, write_lines
from buildlog.proposals.to_print import ToPrint
from buildlog.record.actions.storing.printing import wrong_with
from buildlog.record.tables.printing import Feed, FileLine, FileTool, Job, JobLine, Printer, PrintFile
from buildlog.record.tables.stock import Material
from buildlog.record.tables.tree import Demand, Part, Revision
from buildlog.record.writer import Work
from buildlog.terms import JobState, Purpose, Side


@dataclass(frozen=True, slots=True)
class Laid:
    """A line of a print: pieces of a part, or ``what`` in words."""

    part_id: int | None
    revision_id: int | None
    side: Side
    quantity: int
    what: str = ""


@dataclass(frozen=True, slots=True)
class Head:
    """What a head asks for and lays down over the whole run."""

    material_id: int | None = None
    polymer: str | None = None
    part_mg: int | None = None
    support_mg: int = 0
    purge_mg: int = 0


@dataclass(frozen=True, slots=True)
class Plan:
    name: str
    file_id: int | None
    minutes: int | None
    estimate_from: str
    lines: tuple[Laid, ...]
    heads: dict[int, Head] = field(default_factory=dict)


def plan_of(wish: ToPrint, work: Work) -> Plan:
    """What is to be printed, complete; BadWish says what is missing."""
    if wish.file and wish.lines:
        raise BadWish((("lines", "name a file or type lines, not both"),))
    if wish.file:
        plan = _from_file(work, work.by_code(PrintFile, wish.file))
    elif wish.lines:
        plan = _from_lines(work, wish.lines, wish.what)
    elif wish.what and wish.purpose != Purpose.PARTS:
        plan = Plan(wish.what, None, None, "", (Laid(None, None, Side.NONE, 1, wish.what),))
    else:
        raise BadWish((("file", "name a file, or the lines, or for a trial or other print what it is"),))
    return _complete(_with_typed(work, plan, wish))


def add_job(work: Work, plan: Plan, purpose: Purpose, printer: Printer | None, rank: int | None) -> Job:
    """A queued print with its lines and feeds."""
    assert plan.minutes is not None
    job = work.add(
        Job(
            printer_id=printer.id if printer else None,
            print_file_id=plan.file_id,
            name=plan.name,
            state=JobState.QUEUED,
            rank=rank,
            queued_at=work.at,
            estimate_minutes=plan.minutes,
            estimate_from=plan.estimate_from,
        )
    )
    assert job.id is not None
    for line in plan.lines:
        work.add(
            JobLine(
                job_id=job.id,
                purpose=purpose,
                part_id=line.part_id,
                revision_id=line.revision_id,
                side=line.side,
                quantity=line.quantity,
                what=line.what,
            )
        )
    for number, head in sorted(plan.heads.items()):
        work.add(
            Feed(
                job_id=job.id,
                head=number,
                material_id=head.material_id,
                polymer=head.polymer,
                part_mg=head.part_mg or 0,
                support_mg=head.support_mg,
                purge_mg=head.purge_mg,
            )
        )
    return job


def revision_as_of(work: Work, part: Part, at: str) -> Revision:
    """The revision that was current at a moment; the first one for a moment before it."""
    revisions = work.all(Revision, part_id=part.id)
    revisions.sort(key=lambda revision: (revision.since_at, revision.id or 0))
    if not revisions:
        raise Refused(f"{part.code} has no revision: revise it first.")
    return next((r for r in reversed(revisions) if r.since_at <= at), revisions[0])


def _from_file(work: Work, file: PrintFile) -> Plan:
    if file.retired_at is not None and file.retired_at <= work.at:
        raise Refused(f"File {file.code} is retired: prepare another one, or change it back.")
    lines = work.all(FileLine, print_file_id=file.id)
    tools = work.all(FileTool, print_file_id=file.id)
    return Plan(
        name=file.name or file.code,
        file_id=file.id,
        minutes=file.print_minutes,
        estimate_from=file.estimate_from,
        lines=tuple(Laid(line.part_id, line.revision_id, line.side, line.quantity) for line in lines),
        heads={t.head: Head(t.material_id, t.polymer, t.part_mg, t.support_mg, t.purge_mg) for t in tools},
    )


def _from_lines(work: Work, typed: tuple[Line, ...], what: str) -> Plan:
    """Figures from the parts' revisions, where each has them and they ask for the same materials."""
    minutes: int | None = 0
    sources: set[str] = set()
    laid: list[Laid] = []
    demands: list[tuple[Demand, int]] = []
    wrong = [("lines", text) for line in typed for text in wrong_with(work, line)]
    if wrong:
        raise BadWish(tuple(wrong))
    for line in typed:
        part = work.by_code(Part, line.code)
        revision = revision_as_of(work, part, work.at)
        laid.append(Laid(part.id, revision.id, line.side, line.quantity, what))
        known = revision.print_minutes
        minutes = None if minutes is None or known is None else minutes + known * line.quantity
        sources.add(revision.figures_from)
        demands += [(d, line.quantity) for d in work.all(Demand, revision_id=revision.id)]
    source = sources.pop() if len(sources) == 1 else ""
    return Plan(write_lines(typed), None, minutes, source, tuple(laid), _heads(demands))


def _heads(demands: Iterable[tuple[Demand, int]]) -> dict[int, Head]:
    """Sums by head; where parts ask a head for different things the person must say which."""
    heads: dict[int, Head] = {}
    for demand, quantity in demands:
        sofar = heads.get(demand.head, Head(demand.material_id, demand.polymer, 0))
        alike = (sofar.material_id, sofar.polymer) == (demand.material_id, demand.polymer)
        heads[demand.head] = Head(
            sofar.material_id if alike else None,
            sofar.polymer if alike else None,
            (sofar.part_mg or 0) + demand.part_mg * quantity,
            sofar.support_mg + demand.support_mg * quantity,
            sofar.purge_mg + demand.purge_mg * quantity,
        )
    return heads


def _with_typed(work: Work, plan: Plan, wish: ToPrint) -> Plan:
    """Typed figures win over those of the file or the parts."""
    heads = dict(plan.heads)
    typed = (
        (1, wish.material, wish.grams, wish.support, wish.purge),
        (2, wish.material_2, wish.grams_2, None, wish.purge_2),
    )
    for number, ask, part_mg, support_mg, purge_mg in typed:
        if all(value is None for value in (ask, part_mg, support_mg, purge_mg)):
            continue
        head = heads.get(number, Head())
        if ask is not None:
            head = replace(head, material_id=_material_id(work, ask), polymer=ask.polymer)
        heads[number] = replace(
            head,
            part_mg=head.part_mg if part_mg is None else part_mg,
            support_mg=head.support_mg if support_mg is None else support_mg,
            purge_mg=head.purge_mg if purge_mg is None else purge_mg,
        )
    return replace(
        plan,
        minutes=wish.print_time or plan.minutes,
        estimate_from=wish.estimate_from or plan.estimate_from,
        heads=heads,
    )


def _material_id(work: Work, ask: Ask) -> int | None:
    return work.by_code(Material, ask.material).id if ask.material else None


def _complete(plan: Plan) -> Plan:
    problems = []
    if plan.minutes is None:
        problems.append(("print_time", "print time is missing: not every part has its own"))
    for number, head in plan.heads.items() or [(1, Head())]:
        ending = "" if number == 1 else f"_{number}"
        if head.material_id is None and head.polymer is None:
            problems.append((f"material{ending}", f"name the material of head {number}"))
        if head.part_mg is None:
            problems.append((f"grams{ending}", f"grams of head {number} are missing"))
    if problems:
        raise BadWish(tuple(problems))
    return plan
