"""Files in and out of a ledger: the one place where intake, status and the ledger meet, for commands and screens."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from buildlog.errors import BadWish, Conflict, FileError
from buildlog.facts.snapshot import Snapshot
from buildlog.intake import print_run
from buildlog.intake.counts_out import Lying, counts
from buildlog.intake.csv_out import csv_list
from buildlog.intake.lists import COUNTS, list_named
from buildlog.intake.plan import ReadingPlan, plan_reading
from buildlog.intake.prints_out import print_history, prints_held
from buildlog.intake.sheet_out import build_sheet
from buildlog.ledger import Ledger
from buildlog.proposals.nouns import FORMS
from buildlog.proposals.recorded import live_forms
from buildlog.proposals.recorded_apart import first_usage
from buildlog.status.forms import SnapshotRows
from buildlog.terms import HeldBy, Moment
from buildlog.wording import count

SHEET = "sheet"
"""What is exported where no noun is named: a build sheet of all."""
OF_THE_PAST = {
    COUNTS: "what lies on the shelf, not what is fitted, lent or missing",
    print_run.KIND: "prints that have ended, none that runs or waits",
}
"""What is exported beside things, and what that is: no backup."""
MOST_TAKEN = 30


@dataclass(frozen=True, slots=True)
class ReadReport:
    """What was planned and done; ``group_id`` is None where nothing was written."""

    plan: ReadingPlan
    group_id: int | None
    dry_run: bool

    @property
    def is_new(self) -> bool:
        return bool(self.plan.added or self.plan.changed or self.plan.recorded)


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
    snapshot = ledger.snapshot()
    plan = plan_reading(
        paths,
        SnapshotRows(snapshot),
        ledger.reader.file_rows(),
        ledger.reader.settings(),
        ledger.now(),
        as_list,
        prefer,
        lambda: prints_held(snapshot),
    )
    if plan.conflicts and not dry_run:
        listed = "\n".join(f"  {conflict}" for conflict in plan.conflicts)
        raise Conflict(
            f"File and ledger both changed, nothing was written. Say which wins, file or ledger:\n{listed}"
        )
    if plan.wish is None:
        return ReadReport(plan, None, dry_run)
    return ReadReport(plan, ledger.record(plan.wish, dry_run=dry_run).group_id, dry_run)


def told(report: ReadReport) -> list[str]:
    """What was taken, and all that a person should look at: left, missing, in conflict; in lines."""
    plan = report.plan
    taken = [f"added {named.noun} {named.key}" for named in plan.added]
    taken += [f"changed {named.noun} {named.key}" for named in plan.changed]
    lines = [*taken[:MOST_TAKEN], *_rest(taken)]
    lines += [f"left as it is, changed in the ledger only: {named.noun} {named.key}" for named in plan.left]
    lines += [f"no longer in its file, not retired: {named.noun} {named.key}" for named in plan.missing]
    lines += [f"conflict: {conflict}" for conflict in plan.conflicts]
    lines += list(plan.remarks)
    if not report.is_new:
        return [*lines, "Nothing is new in these files: nothing was changed."]
    shown = "Would take" if report.dry_run else "Took"
    total = (
        f"{shown} {count(len(plan.added), 'new thing')}, {count(len(plan.changed), 'change')} and "
        f"{count(plan.recorded, 'past fact')}; {count(plan.unchanged + plan.known, 'row')} as before."
    )
    return [*lines, total]


def _rest(taken: list[str]) -> list[str]:
    more = len(taken) - MOST_TAKEN
    return [f"… and {more} more"] if more > 0 else []


def export(snapshot: Snapshot, what: str, now: Moment) -> str:
    """What `export` gives: a build sheet of all, the list of a noun, or one of what happened; however it is typed."""
    kind = SHEET if what == SHEET else list_named(what)
    if kind == SHEET:
        return export_sheet(snapshot)
    if kind in FORMS:
        return export_list(snapshot, kind)
    if kind == print_run.KIND:
        return print_history(snapshot)
    if kind == COUNTS:
        return counts(snapshot, _lying(snapshot, now), now)
    raise BadWish((("noun", f"«{what}» is none of: {', '.join((SHEET, *FORMS, *OF_THE_PAST))}"),))


def export_list(snapshot: Snapshot, noun: str) -> str:
    """Everything of a noun that is in use, as a CSV list that can be read again."""
    return csv_list(noun, live_forms(SnapshotRows(snapshot), noun))


def _lying(snapshot: Snapshot, now: Moment) -> Iterator[Lying]:
    """What lies in each box by the book."""
    from buildlog.status.boxes import lay_boxes  # of all that goes in and out only counts need a Status
    from buildlog.status.status import take_stock

    for box_id, contents in lay_boxes(take_stock(snapshot, now)).of.items():
        for each in contents.lots:
            yield Lying(each.lot, each.pieces, box_id, not each.by_default and box_id is not None)


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
