"""Files in and out of a ledger: the one place where intake, status and the ledger meet, for commands and screens."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from buildlog.errors import Conflict
from buildlog.intake.plan import ReadingPlan, plan_reading
from buildlog.ledger import Ledger
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
