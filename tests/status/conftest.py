"""A workshop in memory: puts rows into a Snapshot with as few words as a test needs."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any, get_args, get_type_hints

import pytest

from buildlog.facts.bench import (
    FitResult,
    FitTest,
    FitTestUsage,
    FitTouch,
    Question,
    QuestionTarget,
    Step,
    StepDone,
    Wait,
)
from buildlog.facts.builds import Build, Episode, Goal, Settings
from buildlog.facts.pieces import Damage, Fitting, Lot, LotEntry
from buildlog.facts.printing import FileLine, FileTool, Job, JobLine, Printer, PrintFile, SetUp
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.stock import BoughtEntry, BoughtItem, Material, Order, OrderLine, Spool
from buildlog.facts.tree import Assembly, Demand, Part, Position, Revision, Usage
from buildlog.reference import reference
from buildlog.status.status import Status, take_stock
from buildlog.terms import (
    BoughtAccount,
    BoughtEntryKind,
    BuildState,
    FitKind,
    FitOutcome,
    FitRule,
    GoalKind,
    Grade,
    JobState,
    Joined,
    Level,
    LotEntryKind,
    LotOrigin,
    Moment,
    Origin,
    Purpose,
    SetUpKind,
    Side,
    SideRule,
    Stage,
    StepKind,
    Unit,
)

NOW = Moment("2026-11-25T12:00:00Z")
EARLIER = Moment("2026-11-01T12:00:00Z")
HINTS = get_type_hints(Snapshot)
FILLERS: dict[Any, Any] = {int: 0, str: "", bool: False, Moment: EARLIER}


def day(number: int) -> Moment:
    """Noon of a day of November 2026."""
    return Moment(f"2026-11-{number:02d}T12:00:00Z")


class Rows:
    """Every method adds a row and returns it; what is not given is 0, empty or None."""

    def __init__(self) -> None:
        self.rows: dict[str, list[Any]] = {name: [] for name in HINTS if name not in ("settings", "reference")}
        self.known = reference()

    def row(self, noun: str, fact: type[Any], /, **given: Any) -> Any:
        hints = get_type_hints(fact)
        rows = self.rows[noun]
        values: dict[str, Any] = {"id": len(rows) + 1}
        for field in dataclasses.fields(fact):
            if field.name not in values:
                hint = hints[field.name]
                empty = None if type(None) in get_args(hint) else FILLERS.get(hint)
                values[field.name] = given.pop(field.name, empty)
        assert not given, given
        rows.append(fact(**values))
        return rows[-1]

    def change(self, noun: str, row: Any, **changes: Any) -> Any:
        rows = self.rows[noun]
        index = next(i for i, known in enumerate(rows) if known.id == row.id)
        rows[index] = dataclasses.replace(rows[index], **changes)
        return rows[index]

    def snapshot(self) -> Snapshot:
        settings = Settings(1, "Europe/Berlin", "EUR", 30, 40, 480, 1380)
        return Snapshot(settings=settings, reference=self.known, **{n: tuple(r) for n, r in self.rows.items()})

    def status(self, now: Moment = NOW) -> Status:
        return take_stock(self.snapshot(), now)


class Tree(Rows):
    def build(self, **given: Any) -> Build:
        given = {"code": f"B{len(self.rows['builds'])}", "state": BuildState.OPEN} | given
        return self.row("builds", Build, created_at=EARLIER, **given)

    def assembly(self, code: str, under: Assembly | Build, **given: Any) -> Assembly:
        """With its positions, paired and counted under each position of the parent."""
        is_root = isinstance(under, Build)
        given = {"count": 1, "joined": Joined.COMES_APART, "tree_order": len(self.rows["assemblies"])} | given
        assembly = self.row(
            "assemblies",
            Assembly,
            code=code,
            name=code.lower(),
            build_id=under.id if is_root else under.build_id,
            parent_id=None if is_root else under.id,
            **given,
        )
        for parent in [None] if is_root else self.positions(under):
            inherited = parent.side if parent else Side.NONE
            for side in (Side.LEFT, Side.RIGHT) if assembly.paired else (inherited,):
                for ordinal in range(1, assembly.count + 1):
                    self.row(
                        "positions",
                        Position,
                        assembly_id=assembly.id,
                        parent_id=parent.id if parent else None,
                        side=side,
                        ordinal=ordinal,
                    )
        return assembly

    def positions(self, assembly: Assembly, side: Side | None = None) -> list[Position]:
        every = [p for p in self.rows["positions"] if p.assembly_id == assembly.id]
        return [p for p in every if side is None or p.side is side]

    def position(self, assembly: Assembly, side: Side | None = None) -> Position:
        return self.positions(assembly, side)[0]

    def part(self, code: str, **given: Any) -> Part:
        """Drawn, with revision A, 60 minutes."""
        revised = given.pop("revised", True)
        given = {"origin": Origin.PRINTED, "stage": Stage.DRAWN, "build_id": 1} | given
        part = self.row("parts", Part, code=code, name=code.lower(), **given)
        if revised:
            self.revise(part, "A", day(1))
        return part

    def revise(self, part: Part, letter: str, since: Moment, left: Any = None, right: Any = None) -> Revision:
        return self.row(
            "revisions",
            Revision,
            part_id=part.id,
            letter=letter,
            since_at=since,
            print_minutes=60,
            old_left=left,
            old_right=right if right is not None else left,
        )

    def use(self, part: Part, assembly: Assembly, quantity: int = 1, **given: Any) -> Usage:
        given = {"side_rule": SideRule.AS_POSITION, "since_at": day(1)} | given
        return self.row("usages", Usage, assembly_id=assembly.id, part_id=part.id, quantity=quantity, **given)


class Pieces(Rows):
    def lot(self, part: Part, quantity: int = 1, side: Side = Side.NONE, **given: Any) -> Lot:
        first = next(r.id for r in self.rows["revisions"] if r.part_id == part.id)
        given = {"revision_id": first, "made_at": day(2), "grade": Grade.GOOD, "origin": LotOrigin.COUNT} | given
        return self.row("lots", Lot, part_id=part.id, quantity=quantity, side=side, **given)

    def happens(self, lot: Lot, kind: LotEntryKind, pieces: int = 1, at: Moment = EARLIER) -> LotEntry:
        return self.row("lot_entries", LotEntry, lot_id=lot.id, at=max(at, lot.made_at), kind=kind, pieces=pieces)

    def fit(self, lot: Lot | None, position: Position, usage: Usage, number: int = 1, **given: Any) -> Fitting:
        given = {"from_at": day(3)} | given
        if lot is not None:
            self.happens(lot, LotEntryKind.FITTED, at=given["from_at"])
        return self.row(
            "fittings",
            Fitting,
            lot_id=lot.id if lot else None,
            position_id=position.id,
            usage_id=usage.id,
            number=number,
            **given,
        )

    def take_out(self, fitting: Fitting, at: Moment) -> None:
        self.change("fittings", fitting, until_at=at)
        if fitting.lot_id is not None:
            self.row("lot_entries", LotEntry, lot_id=fitting.lot_id, at=at, kind=LotEntryKind.TAKEN_OUT, pieces=1)

    def breaks(self, lot: Lot, at: Moment = NOW, repaired_at: Moment | None = None) -> Damage:
        self.row("lot_entries", LotEntry, lot_id=lot.id, at=at, kind=LotEntryKind.OUT_OF_USE, pieces=1)
        told = {"place": "rim", "out_of_use": True, "repaired_at": repaired_at}
        return self.row("damages", Damage, lot_id=lot.id, at=at, **told)


class Prints(Rows):
    def prints(
        self, part: Part, quantity: int = 1, side: Side = Side.NONE, state: JobState = JobState.QUEUED, **given: Any
    ) -> JobLine:
        running = state is JobState.RUNNING
        given = {"printer_id": 1 if running else None, "rank": None} | given
        job = self.row(
            "jobs",
            Job,
            state=state,
            queued_at=day(20),
            started_at=Moment("2026-11-25T11:00:00Z") if running else None,
            estimate_minutes=120,
            **given,
        )
        return self.row(
            "job_lines", JobLine, job_id=job.id, purpose=Purpose.PARTS, part_id=part.id, side=side, quantity=quantity
        )

    def printer(self, **given: Any) -> Printer:
        bed = {"bed_x_um": 300_000, "bed_y_um": 300_000, "bed_z_um": 300_000}
        given = {"code": f"P{len(self.rows['printers'])}", "stops_at_filament_end": True, "heads": 1} | bed | given
        return self.row("printers", Printer, name="mill", printer_class="big", **given)

    def down(self, printer: Printer, until: Moment | None = None) -> SetUp:
        return self.row("set_ups", SetUp, printer_id=printer.id, at=day(20), kind=SetUpKind.DOWN, until_at=until)

    def ready_file(self, part: Part, side: Side = Side.NONE, **given: Any) -> PrintFile:
        file = self.row(
            "print_files", PrintFile, code=f"F{len(self.rows['print_files'])}", printer_class="big", print_minutes=60,
            prepared_at=day(5), **given,
        )  # fmt: skip
        revision = [r.id for r in self.rows["revisions"] if r.part_id == part.id][-1]
        laid = {"part_id": part.id, "revision_id": revision, "side": side, "quantity": 1}
        self.row("file_lines", FileLine, print_file_id=file.id, **laid)
        return file

    def asks_for(self, file: PrintFile, material: Material, part_mg: int) -> FileTool:
        asked = {"material_id": material.id, "part_mg": part_mg}
        return self.row("file_tools", FileTool, print_file_id=file.id, head=1, **asked)

    def demand(self, part: Part, material: Material, part_mg: int) -> Demand:
        revision = [r.id for r in self.rows["revisions"] if r.part_id == part.id][-1]
        return self.row("demands", Demand, revision_id=revision, head=1, material_id=material.id, part_mg=part_mg)


class Stores(Rows):
    def material(self, **given: Any) -> Material:
        given = {"code": "PLA-RED", "name": "red", "polymer": "PLA", "pack_mg": 1_000_000} | given
        return self.row("materials", Material, diameter_um=1750, density_mg_cm3=1240, **given)

    def spool(self, material: Material, content_mg: int = 1_000_000) -> Spool:
        return self.row(
            "spools", Spool, code=f"S{len(self.rows['spools'])}", material_id=material.id, received_at=day(2),
            content_mg=content_mg,
        )  # fmt: skip

    def bought(self, amount: int = 0, level: Level | None = None) -> BoughtItem:
        account = BoughtAccount.ROUGH if level else BoughtAccount.COUNTED
        item = self.row(
            "bought_items", BoughtItem, code=f"I{len(self.rows['bought_items'])}", unit=Unit.EACH, account=account,
            pack_quantity=1,
        )  # fmt: skip
        kind = BoughtEntryKind.LEVEL if level else BoughtEntryKind.COUNTED
        told = {"kind": kind, "amount": amount, "level": level}
        self.row("bought_entries", BoughtEntry, bought_item_id=item.id, at=day(2), **told)
        return item

    def order(self, item: BoughtItem, quantity: int, expected: Moment) -> OrderLine:
        order = self.row("orders", Order, placed_at=day(20), expected_at=expected)
        return self.row("order_lines", OrderLine, purchase_id=order.id, bought_item_id=item.id, quantity=quantity)


class Bench(Rows):
    def step(self, owner: Assembly | Part, kind: StepKind = StepKind.ASSEMBLE, **given: Any) -> Step:
        count = len(self.rows["steps"])
        given = {"name": f"step {count}", "bench_minutes": 30, "place": count} | given
        owned = {"assembly_id": owner.id} if isinstance(owner, Assembly) else {"part_id": owner.id}
        return self.row("steps", Step, code=f"ST{count}", kind=kind, **owned, **given)

    def tick(self, step: Step, on: Position | Lot, at: Moment = EARLIER, **given: Any) -> StepDone:
        where = {"position_id": on.id} if isinstance(on, Position) else {"lot_id": on.id}
        given = {"pieces": 1} | given
        return self.row("steps_done", StepDone, step_id=step.id, at=at, **where, **given)

    def wait(self, assembly: Assembly, on: Assembly, step: Step | None = None, on_step: Step | None = None) -> Wait:
        return self.row(
            "waits", Wait, assembly_id=assembly.id, on_assembly_id=on.id, step_id=step.id if step else None,
            on_step_id=on_step.id if on_step else None,
        )  # fmt: skip

    def ask(self, build: Build, about: Assembly | Part, side: Side | None = None) -> Question:
        code = f"Q{len(self.rows['questions'])}"
        question = self.row("questions", Question, code=code, build_id=build.id, text="how?")
        named = {"assembly_id": about.id} if isinstance(about, Assembly) else {"part_id": about.id}
        self.row("question_targets", QuestionTarget, question_id=question.id, side=side, **named)
        return question

    def fit_test(self, assembly: Assembly, *usages: Usage, **given: Any) -> FitTest:
        given = {"name": "gap", "kind": FitKind.CLEARANCE, "rule": FitRule.NEW_REVISION, "bench_minutes": 10} | given
        code = f"T{len(self.rows['fit_tests'])}"
        test = self.row("fit_tests", FitTest, code=code, assembly_id=assembly.id, **given)
        for usage in usages:
            self.row("fit_test_usages", FitTestUsage, fit_test_id=test.id, usage_id=usage.id)
        return test

    def result(self, test: FitTest, position: Position, *fittings: Fitting, **given: Any) -> FitResult:
        """With what stands in the slots of these fittings."""
        given = {"outcome": FitOutcome.PASSED, "at": day(10)} | given
        reworks = given.pop("reworks", 0)
        result = self.row("fit_results", FitResult, fit_test_id=test.id, position_id=position.id, **given)
        for fitting in fittings:
            lot = next((lot for lot in self.rows["lots"] if lot.id == fitting.lot_id), None)
            usage = next(u for u in self.rows["usages"] if u.id == fitting.usage_id)
            self.row(
                "fit_touches", FitTouch, fit_result_id=result.id, position_id=fitting.position_id,
                usage_id=fitting.usage_id, number=fitting.number, lot_id=fitting.lot_id,
                part_id=lot.part_id if lot else None if fitting.what else usage.part_id,
                revision_id=lot.revision_id if lot else None,
                reworks=reworks, stand_in=fitting.stand_in,
            )  # fmt: skip
        return result

    def episode(self, build: Build, films_at: Moment, **given: Any) -> Episode:
        number = len(self.rows["episodes"]) + 1
        return self.row("episodes", Episode, build_id=build.id, number=number, films_at=films_at, **given)

    def goal(self, episode: Episode, kind: GoalKind, **given: Any) -> Goal:
        return self.row("goals", Goal, episode_id=episode.id, kind=kind, **given)


class Workshop(Bench, Prints, Stores, Pieces, Tree):
    """All of it."""


@pytest.fixture
def shop() -> Workshop:
    return Workshop()


@pytest.fixture
def new_shop() -> Callable[[], Workshop]:
    """For properties, which need a fresh one for every example."""
    return Workshop
