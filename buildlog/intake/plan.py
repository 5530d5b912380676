"""What reading files would do, as one wish and as something to say; nothing is recorded here."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path, PurePath

from buildlog.facts.builds import Settings
from buildlog.facts.journal import FileRow
from buildlog.intake import print_run
from buildlog.intake.compare import Conflicting
from buildlog.intake.fact_rows import FactReader, FactRow
from buildlog.intake.facts_plan import FactsPlan, plan_facts
from buildlog.intake.form_rows import FormRow, Unreadable, read_form, refuse_twice
from buildlog.intake.forms_plan import Bases, FormsPlan, FormsPlanner, Named
from buildlog.intake.order import in_order
from buildlog.intake.references import KnownCodes
from buildlog.intake.rows import Row
from buildlog.intake.rows_of_files import rows_of_files
from buildlog.intake.sided import tell_handed_without_side
from buildlog.proposals.file_base import FileBase, base_from
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.files import ReadFiles
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import FORMS
from buildlog.proposals.recorded import Rows
from buildlog.terms import HeldBy, Moment
from buildlog.wording import count


@dataclass(frozen=True, slots=True)
class ReadingPlan:
    """``wish`` is None where nothing is to be recorded: nothing new, or conflicts that no one has decided.

    ``left`` was changed in the ledger only, ``missing`` was read before and no longer stands in its file;
    ``recorded`` and ``known`` count rows about the past, new ones and those taken before.
    """

    wish: ReadFiles | None
    added: tuple[Named, ...]
    changed: tuple[Named, ...]
    unchanged: int
    left: tuple[Named, ...]
    conflicts: tuple[Conflicting, ...]
    missing: tuple[Named, ...]
    recorded: int
    known: int
    remarks: tuple[str, ...]


def plan_reading(
    paths: Iterable[Path],
    held: Rows,
    file_rows: Iterable[FileRow],
    settings: Settings,
    now: Moment,
    as_list: str | None = None,
    prefer: HeldBy | None = None,
    prints_held: Callable[[], Bases] = dict,
) -> ReadingPlan:
    """What the files say, laid against the ledger's rows; FileProblems with everything that is wrong in them.

    ``as_list`` names what lists are, where neither they nor their names do; ``prefer`` decides conflicts;
    ``prints_held`` tells the prints of the ledger as a history would, asked for where a file has one.
    """
    problems = Problems()
    paths, file_rows = list(paths), list(file_rows)
    rows = rows_of_files(paths, as_list, settings.currency, problems)
    forms, facts = _read(rows, settings, now, held, problems)
    problems.raise_if_any()
    bases = {(kept.noun, kept.key): base_from(kept.form) for kept in file_rows}
    planner = FormsPlanner(held, bases, prefer, problems)
    things = planner.take_all(in_order(forms, problems))
    told = prints_held() if any(fact.noun == print_run.KIND for fact in facts) else {}
    past = plan_facts(facts, {**told, **bases}, now, problems)
    problems.raise_if_any()
    names = {path.name for path in paths}
    here = {(form.noun, form.key) for form in forms} | {(fact.noun, fact.key) for fact in facts}
    missing = tuple(
        Named(kept.noun, kept.key if kept.noun in FORMS else _in_words(bases[kept.noun, kept.key]))
        for kept in file_rows
        if kept.source in names and (kept.noun, kept.key) not in here
        if kept.noun not in FORMS or kept.key in planner.live(kept.noun)
    )
    wish = _wish(paths, things, past)
    return ReadingPlan(
        None if things.conflicts else wish,
        tuple(things.added),
        tuple(things.changed),
        things.unchanged,
        tuple(things.left),
        tuple(things.conflicts),
        missing,
        past.recorded,
        past.known,
        tuple(past.remarks),
    )


def _read(
    rows: Iterable[Row], settings: Settings, now: Moment, held: Rows, problems: Problems
) -> tuple[list[FormRow], list[FactRow]]:
    """All rows that can be read; everything wrong in the others is told."""
    read_moment = moment_reader(now, settings.home_zone)
    reader = FactReader(read_moment, settings.currency, problems)
    things: list[FormRow | Unreadable] = []
    facts: list[FactRow] = []
    for row in rows:
        if problems.enough:
            break
        if row.kind in FORMS:
            things.append(read_form(row, read_moment, settings.currency, problems))
        else:
            fact = reader.read(row)
            facts += [fact] if fact is not None else []
    refuse_twice(things, problems)
    known = KnownCodes(held, things, facts)
    forms = [thing for thing in things if isinstance(thing, FormRow)]
    for thing in things:
        known.check_form(thing, problems)
    tell_handed_without_side(things, held, problems)
    for fact in facts:
        known.check_fact(fact, problems)
    return forms, facts


def _in_words(base: FileBase) -> str:
    """A row about the past as its file said it."""
    return ", ".join(filter(None, base.given.values()))[:80]


def _wish(paths: Iterable[Path], things: FormsPlan, past: FactsPlan) -> ReadFiles | None:
    facts = (*things.facts, *things.late, *past.facts)
    kept = (*things.kept, *past.kept)
    if not facts and not kept:
        return None
    names = ", ".join(PurePath(path).name for path in paths)
    told = [
        f"{len(things.added)} added" if things.added else "",
        f"{len(things.changed)} changed" if things.changed else "",
        f"{count(past.recorded, 'fact')}" if past.recorded else "",
    ]
    return ReadFiles(facts, kept, f"Read {names}: {', '.join(filter(None, told)) or 'nothing new'}.")
