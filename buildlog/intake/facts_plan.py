"""What rows about the past would do: each is taken once, however often its file is read."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from buildlog.intake import print_run
from buildlog.intake.compare import changed_in_file
from buildlog.intake.fact_rows import Dated, FactRow
from buildlog.intake.forms_plan import Bases, file_name
from buildlog.proposals.file_base import FileBase
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.from_file import FromFile, KeptForm
from buildlog.terms import Moment


@dataclass(slots=True)
class FactsPlan:
    """``facts`` in the order in which they happened; ``known`` rows were taken before, or are prints on record."""

    facts: list[FromFile] = field(default_factory=list)
    kept: list[KeptForm] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    recorded: int = 0
    known: int = 0


def plan_facts(rows: Iterable[FactRow], bases: Bases, now: Moment, problems: Problems) -> FactsPlan:
    plan = FactsPlan()
    dated: list[tuple[Moment, int, int, FromFile]] = []
    seen: dict[tuple[str, str], FactRow] = {}
    for read in rows:
        first = seen.setdefault((read.noun, read.key), read)
        if first is not read:
            if read.noun == print_run.KIND:
                message = f"this printer started a print at that moment in line {first.row.line} already"
                problems.add(*read.columns.place("started"), message)
            continue
        base = bases.get((read.noun, read.key))
        new = read.dated if base is None else _since(read, base, plan)
        if not new:
            continue
        plan.recorded += 1
        given = tuple(read.texts.items())
        plan.kept.append(KeptForm(read.noun, read.key, file_name(read.row.source), given, in_ledger=False))
        for wish, at, rank in new:
            fact = FromFile(wish, at, read.row.source, read.row.line, read.columns.all())
            dated.append((at or now, rank, len(dated), fact))
    plan.facts = [fact for *_, fact in sorted(dated, key=lambda one: one[:3])]
    return plan


def _since(read: FactRow, base: FileBase, plan: FactsPlan) -> tuple[Dated, ...]:
    """What is new of a row that was taken before, or recorded: the end of a print that was running then."""
    dropped = any(text and name not in read.texts for name, text in base.given.items() if name != "outcome")
    changed = changed_in_file(read.texts, base) or dropped
    if read.noun != print_run.KIND or not changed:
        plan.known += 1
        return ()
    was_running = not base.given.get("ended") and read.values.get("ended") is not None
    told = {name for name in print_run.STARTS if read.texts.get(name, "") != base.given.get(name, "")}
    if was_running and not told:
        return (print_run.end_of(read.values),)
    plan.remarks.append(
        f"{read.row.source}, line {read.row.line}: this print of {read.values['printer']} is recorded otherwise. "
        "Correct it in the ledger: a past that is recorded is not written anew from a file."
    )
    return ()
