"""Printers and their set-up, print files, print jobs and their feeds."""

from sqlalchemy import CheckConstraint, UniqueConstraint
from sqlmodel import Field

from buildlog.record.tables.columns import Row, choice, maybe_ref, ref
from buildlog.terms import FigureOrigin, JobState, Purpose, ResourceKind, SetUpKind, Side


class Printer(Row, table=True):
    __tablename__ = "printer"

    code: str = Field(unique=True)
    name: str
    printer_class: str
    bed_x_um: int
    bed_y_um: int
    bed_z_um: int
    heads: int = 1
    capabilities: str = ""
    runs_unattended: bool
    stops_at_filament_end: bool
    watts: int = 0
    retired_at: str | None = None


class SetUp(Row, table=True):
    """A dated fact of a printer's set-up; ``until_at`` is when it should be up again."""

    __tablename__ = "set_up"

    printer_id: int = ref("printer")
    at: str
    kind: SetUpKind = choice(SetUpKind, "kind")
    head: int = 1
    spool_id: int | None = maybe_ref("spool")
    nozzle_um: int | None = None
    until_at: str | None = None
    text: str = ""


class Resource(Row, table=True):
    __tablename__ = "resource"

    code: str = Field(unique=True)
    name: str
    kind: ResourceKind = choice(ResourceKind, "kind")
    count: int = 1
    calendar: str = ""
    can: str = ""
    retired_at: str | None = None


class PrintFile(Row, table=True):
    """A prepared file for a class of printers; lasts and is run again."""

    __tablename__ = "print_file"

    code: str = Field(unique=True)
    name: str
    printer_class: str
    print_minutes: int
    nozzle_um: int | None = None
    settings_line: str = ""
    estimate_from: str = ""
    prepared_at: str
    retired_at: str | None = None


class FileLine(Row, table=True):
    __tablename__ = "file_line"

    print_file_id: int = ref("print_file")
    part_id: int = ref("part")
    revision_id: int = ref("revision")
    side: Side = choice(Side, "side")
    quantity: int


class FileTool(Row, table=True):
    """Grams of one head of a print file, for the whole run."""

    __tablename__ = "file_tool"
    __table_args__ = (
        UniqueConstraint("print_file_id", "head"),
        CheckConstraint("(material_id IS NULL) <> (polymer IS NULL)", name="exact_or_any"),
    )

    print_file_id: int = ref("print_file")
    head: int = 1
    material_id: int | None = maybe_ref("material")
    polymer: str | None = None
    part_mg: int
    support_mg: int = 0
    purge_mg: int = 0


class Job(Row, table=True):
    """One run. ``estimate_minutes`` is what the file or the person said, ``real_minutes`` what it took.

    ``stopped_at`` is when laying down ended in a failure, ``filament_ran_on`` whether filament kept running to
    ``ended_at``.
    """

    __tablename__ = "job"
    __table_args__ = (
        CheckConstraint("state <> 'running' OR started_at IS NOT NULL", name="running"),
        CheckConstraint("state NOT IN ('finished', 'failed') OR ended_at IS NOT NULL", name="ended"),
        CheckConstraint("ended_at IS NULL OR started_at IS NULL OR ended_at >= started_at", name="span"),
    )

    printer_id: int | None = maybe_ref("printer")
    print_file_id: int | None = maybe_ref("print_file")
    name: str = ""
    state: JobState = choice(JobState, "state")
    rank: int | None = None
    queued_at: str
    started_at: str | None = None
    ended_at: str | None = None
    estimate_minutes: int
    estimate_from: str = ""
    real_minutes: int | None = None
    real_from: FigureOrigin | None = choice(FigureOrigin, "real_from", default=None)
    unattended: bool = False
    restarts: int = 0
    went_wrong_at: str | None = None
    stopped_at: str | None = None
    filament_ran_on: bool = False
    cause: str = ""


class JobLine(Row, table=True):
    """What a run lays down; ``scrapped`` of ``quantity`` went wrong, the rest became lots."""

    __tablename__ = "job_line"
    __table_args__ = (
        CheckConstraint("scrapped BETWEEN 0 AND quantity", name="scrapped"),
        CheckConstraint("purpose <> 'parts' OR part_id IS NOT NULL", name="parts"),
    )

    job_id: int = ref("job")
    purpose: Purpose = choice(Purpose, "purpose")
    part_id: int | None = maybe_ref("part")
    revision_id: int | None = maybe_ref("revision")
    side: Side = choice(Side, "side")
    quantity: int
    scrapped: int = 0
    cause: str = ""
    what: str = ""


class Feed(Row, table=True):
    """A head of a print with one spool; a swap of spools ends one feed and begins the next.

    Estimates stand from the start; ``real_mg`` is known when the feed has ended.
    """

    __tablename__ = "feed"
    __table_args__ = (CheckConstraint("to_at IS NULL OR to_at >= from_at", name="span"),)

    job_id: int = ref("job")
    head: int = 1
    material_id: int | None = maybe_ref("material")
    polymer: str | None = None
    spool_id: int | None = maybe_ref("spool")
    from_at: str | None = None
    to_at: str | None = None
    part_mg: int
    support_mg: int = 0
    purge_mg: int = 0
    real_mg: int | None = None
    real_from: FigureOrigin | None = choice(FigureOrigin, "real_from", default=None)
