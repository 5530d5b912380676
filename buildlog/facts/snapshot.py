"""Everything the record says at one moment, with the reference data: what all questions are answered from."""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable
from dataclasses import replace
from functools import cached_property
from operator import attrgetter
from typing import Any, TypeVar

from buildlog.facts.bench import (
    FitResult,
    FitTest,
    FitTestUsage,
    FitTouch,
    Question,
    QuestionTarget,
    Step,
    StepDone,
    StepUse,
    Wait,
)
from buildlog.facts.builds import Build, Episode, Goal, Milestone, MilestoneTarget, Settings
from buildlog.facts.frozen import frozen_with_late_answers
from buildlog.facts.journal import Note
from buildlog.facts.pieces import Box, Damage, Fitting, Lot, LotEntry
from buildlog.facts.printing import Feed, FileLine, FileTool, Job, JobLine, Printer, PrintFile, Resource, SetUp
from buildlog.facts.reference_data import Reference
from buildlog.facts.stock import (
    BoughtEntry,
    BoughtItem,
    Material,
    Order,
    OrderLine,
    Spool,
    SpoolEntry,
    Supplier,
)
from buildlog.facts.story import Promise, Shot, ViewerQuestion
from buildlog.facts.tree import Assembly, Demand, Part, Position, Revision, Usage
from buildlog.terms import JobState

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")


def grouped(rows: Iterable[V], key: Callable[[V], K]) -> dict[K, list[V]]:
    """Rows by key, each list in the order of the rows."""
    groups: defaultdict[K, list[V]] = defaultdict(list)
    rows = tuple(rows)
    for of, row in zip(map(key, rows), rows, strict=True):
        groups[of].append(row)
    return dict(groups)


@frozen_with_late_answers
class Snapshot:
    """One tuple of frozen rows per noun, each in order of id. Indexes are made when first asked for."""

    __repr__ = object.__repr__  # see Status

    settings: Settings
    builds: tuple[Build, ...]
    episodes: tuple[Episode, ...]
    goals: tuple[Goal, ...]
    milestones: tuple[Milestone, ...]
    milestone_targets: tuple[MilestoneTarget, ...]
    assemblies: tuple[Assembly, ...]
    positions: tuple[Position, ...]
    parts: tuple[Part, ...]
    revisions: tuple[Revision, ...]
    demands: tuple[Demand, ...]
    usages: tuple[Usage, ...]
    boxes: tuple[Box, ...]
    lots: tuple[Lot, ...]
    lot_entries: tuple[LotEntry, ...]
    fittings: tuple[Fitting, ...]
    damages: tuple[Damage, ...]
    printers: tuple[Printer, ...]
    set_ups: tuple[SetUp, ...]
    resources: tuple[Resource, ...]
    print_files: tuple[PrintFile, ...]
    file_lines: tuple[FileLine, ...]
    file_tools: tuple[FileTool, ...]
    jobs: tuple[Job, ...]
    job_lines: tuple[JobLine, ...]
    feeds: tuple[Feed, ...]
    suppliers: tuple[Supplier, ...]
    materials: tuple[Material, ...]
    spools: tuple[Spool, ...]
    spool_entries: tuple[SpoolEntry, ...]
    bought_items: tuple[BoughtItem, ...]
    bought_entries: tuple[BoughtEntry, ...]
    orders: tuple[Order, ...]
    order_lines: tuple[OrderLine, ...]
    steps: tuple[Step, ...]
    step_uses: tuple[StepUse, ...]
    steps_done: tuple[StepDone, ...]
    waits: tuple[Wait, ...]
    questions: tuple[Question, ...]
    question_targets: tuple[QuestionTarget, ...]
    fit_tests: tuple[FitTest, ...]
    fit_test_usages: tuple[FitTestUsage, ...]
    fit_results: tuple[FitResult, ...]
    fit_touches: tuple[FitTouch, ...]
    shots: tuple[Shot, ...]
    viewer_questions: tuple[ViewerQuestion, ...]
    promises: tuple[Promise, ...]
    notes: tuple[Note, ...]
    reference: Reference

    def with_changed(self, **rows: Any) -> "Snapshot":
        """The same with other rows of some nouns; what was indexed of the others is kept."""
        changed = replace(self, **rows)
        kept = {name: made for name, made in vars(self).items() if name in INDEXED and INDEXED[name] not in rows}
        vars(changed).update(kept)
        return changed

    @cached_property
    def part(self) -> dict[int, Part]:
        return {row.id: row for row in self.parts}

    @cached_property
    def assembly(self) -> dict[int, Assembly]:
        return {row.id: row for row in self.assemblies}

    @cached_property
    def position(self) -> dict[int, Position]:
        return {row.id: row for row in self.positions}

    @cached_property
    def revision(self) -> dict[int, Revision]:
        return {row.id: row for row in self.revisions}

    @cached_property
    def lot(self) -> dict[int, Lot]:
        return {row.id: row for row in self.lots}

    @cached_property
    def job(self) -> dict[int, Job]:
        return {row.id: row for row in self.jobs}

    @cached_property
    def material(self) -> dict[int, Material]:
        return {row.id: row for row in self.materials}

    @cached_property
    def printer(self) -> dict[int, Printer]:
        return {row.id: row for row in self.printers}

    @cached_property
    def revisions_of(self) -> dict[int, list[Revision]]:
        """Revisions of a part, oldest first."""
        return grouped(sorted(self.revisions, key=lambda r: (r.part_id, r.since_at, r.id)), lambda r: r.part_id)

    @cached_property
    def demands_of(self) -> dict[int, list[Demand]]:
        """Demands by revision."""
        return grouped(self.demands, attrgetter("revision_id"))

    @cached_property
    def positions_of(self) -> dict[int, list[Position]]:
        """Live positions by assembly."""
        return grouped((p for p in self.positions if p.retired_at is None), lambda p: p.assembly_id)

    @cached_property
    def jobs_of_state(self) -> dict[JobState, list[Job]]:
        return grouped(self.jobs, attrgetter("state"))

    @cached_property
    def lines_of_job(self) -> dict[int, list[JobLine]]:
        return grouped(self.job_lines, attrgetter("job_id"))

    @cached_property
    def feeds_of_job(self) -> dict[int, list[Feed]]:
        return grouped(self.feeds, attrgetter("job_id"))

    @cached_property
    def feeds_of_spool(self) -> dict[int | None, list[Feed]]:
        """Feeds by the spool they draw from; None has those of which nobody named it."""
        return grouped(self.feeds, attrgetter("spool_id"))

    @cached_property
    def entries_of_spool(self) -> dict[int, list[SpoolEntry]]:
        return grouped(self.spool_entries, attrgetter("spool_id"))

    @cached_property
    def lines_of_file(self) -> dict[int, list[FileLine]]:
        return grouped(self.file_lines, attrgetter("print_file_id"))

    @cached_property
    def tools_of_file(self) -> dict[int, list[FileTool]]:
        return grouped(self.file_tools, attrgetter("print_file_id"))

    @cached_property
    def notes_on(self) -> dict[tuple[str, int | None], list[Note]]:
        """Notes by noun and row, the newest first."""
        newest_first = sorted(self.notes, key=lambda note: (note.at, note.id), reverse=True)
        return grouped(newest_first, lambda note: (note.noun, note.row_id))


INDEXED = {
    "part": "parts",
    "assembly": "assemblies",
    "position": "positions",
    "revision": "revisions",
    "lot": "lots",
    "job": "jobs",
    "material": "materials",
    "printer": "printers",
    "revisions_of": "revisions",
    "demands_of": "demands",
    "positions_of": "positions",
    "jobs_of_state": "jobs",
    "lines_of_job": "job_lines",
    "feeds_of_job": "feeds",
    "feeds_of_spool": "feeds",
    "entries_of_spool": "spool_entries",
    "lines_of_file": "file_lines",
    "tools_of_file": "file_tools",
    "notes_on": "notes",
}
"""Each index, and the rows that it is made of."""
