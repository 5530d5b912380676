"""Files in and out of a ledger: the one place where intake, status and the ledger meet, for commands and screens."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from buildlog.errors import Conflict, FileError
from buildlog.facts.snapshot import Snapshot
from buildlog.intake.csv_out import csv_list
from buildlog.intake.plan import ReadingPlan, plan_reading
from buildlog.intake.sheet_out import build_sheet
from buildlog.ledger import Ledger
from buildlog.proposals.nouns import FORMS
from buildlog.proposals.recorded import live_forms
from buildlog.proposals.recorded_apart import first_usage
from buildlog.status.forms import SnapshotRows
from buildlog.terms import HeldBy


@dataclass(frozen=True, slots=True)
class ReadReport:
    """What was planned and done; ``group_id`` is None where nothing was written."""

    plan: ReadingPlan
    group_id: int | None
    dry_run: bool


def read_into(
    ledger: Ledger,
    paths: Iterable[Path],
    as_list: str | None = None,
    prefer: HeldBy | None = None,
    dry_run: bool = False,
) -> ReadReport:
    """Take in what the files say, as one journal group.

    FileProblems with everything that is wrong, Conflict where file and ledger both changed and no one said
    which wins; a dry run reports conflicts instead. In all these cases nothing is changed.
    """
    plan = plan_reading(
        paths,
        SnapshotRows(ledger.snapshot()),
        ledger.reader.file_rows(),
        ledger.reader.settings(),
        ledger.now(),
        as_list,
        prefer,
    )
    if plan.conflicts and not dry_run:
        listed = "\n".join(f"  {conflict}" for conflict in plan.conflicts)
        raise Conflict(
            f"File and ledger both changed, nothing was written. Say which wins, file or ledger:\n{listed}"
        )
    if plan.wish is None:
        return ReadReport(plan, None, dry_run)
    return ReadReport(plan, ledger.record(plan.wish, dry_run=dry_run).group_id, dry_run)


def export_list(snapshot: Snapshot, noun: str) -> str:
    """Everything of a noun that is in use, as a CSV list that can be read again."""
    return csv_list(noun, live_forms(SnapshotRows(snapshot), noun))


def export_sheet(snapshot: Snapshot) -> str:
    """Everything in use, of all builds and the workshop, as one build sheet that can be read again."""
    rows = SnapshotRows(snapshot)
    return build_sheet(form for noun in FORMS for form in live_forms(rows, noun) if not _told_by_part(rows, form))


def write_text(text: str, path: Path) -> None:
    """The whole text into a file; FileError says why it could not be written."""
    try:
        path.write_text(text, encoding="utf-8", newline="")
    except OSError as error:
        raise FileError(f"{path} cannot be written ({error.strerror}): name another place.") from error


def _told_by_part(rows: SnapshotRows, form: Any) -> bool:
    """The first usage of a part stands in the part's own table."""
    if form.NOUN != "usage":
        return False
    (part,) = rows.all("part", code=form.part)
    first = first_usage(rows, part.id)
    assembly = rows.all("assembly", code=form.assembly)[0]
    return first is not None and first.assembly_id == assembly.id
