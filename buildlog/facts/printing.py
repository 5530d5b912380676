"""Printers, set-up, print files, jobs and feeds."""

from buildlog.facts.frozen import frozen
from buildlog.terms import FigureOrigin, JobState, Moment, Purpose, ResourceKind, SetUpKind, Side


@frozen
class Printer:
    id: int
    code: str
    name: str
    printer_class: str
    bed_x_um: int
    bed_y_um: int
    bed_z_um: int
    heads: int
    capabilities: str
    runs_unattended: bool
    stops_at_filament_end: bool
    watts: int
    retired_at: Moment | None


@frozen
class SetUp:
    """A dated fact of a printer's set-up; ``until_at`` is when it should be up again."""

    id: int
    printer_id: int
    at: Moment
    kind: SetUpKind
    head: int
    spool_id: int | None
    nozzle_um: int | None
    until_at: Moment | None
    text: str


@frozen
class Resource:
    id: int
    code: str
    name: str
    kind: ResourceKind
    count: int
    calendar: str
    can: str
    retired_at: Moment | None


@frozen
class PrintFile:
    """A prepared file for a class of printers; lasts and is run again."""

    id: int
    code: str
    name: str
    printer_class: str
    print_minutes: int
    nozzle_um: int | None
    settings_line: str
    estimate_from: str
    prepared_at: Moment
    retired_at: Moment | None


@frozen
class FileLine:
    id: int
    print_file_id: int
    part_id: int
    revision_id: int
    side: Side
    quantity: int


@frozen
class FileTool:
    """Grams of one head of a print file, for the whole run."""

    id: int
    print_file_id: int
    head: int
    material_id: int | None
    polymer: str | None
    part_mg: int
    support_mg: int
    purge_mg: int


@frozen
class Job:
    """One run. ``estimate_minutes`` is what the file or the person said, ``real_minutes`` what it took.

    ``stopped_at`` is when laying down ended in a failure, ``filament_ran_on`` whether filament kept running to
    ``ended_at``.
    """

    id: int
    printer_id: int | None
    print_file_id: int | None
    name: str
    state: JobState
    rank: int | None
    queued_at: Moment
    started_at: Moment | None
    ended_at: Moment | None
    estimate_minutes: int
    estimate_from: str
    real_minutes: int | None
    real_from: FigureOrigin | None
    unattended: bool
    restarts: int
    went_wrong_at: Moment | None
    stopped_at: Moment | None
    filament_ran_on: bool
    cause: str


@frozen
class JobLine:
    """What a run lays down; ``scrapped`` of ``quantity`` went wrong, the rest became lots."""

    id: int
    job_id: int
    purpose: Purpose
    part_id: int | None
    revision_id: int | None
    side: Side
    quantity: int
    scrapped: int
    cause: str
    what: str


@frozen
class Feed:
    """A head of a print with one spool; a swap of spools ends one feed and begins the next.

    Estimates stand from the start; ``real_mg`` is known when the feed has ended.
    """

    id: int
    job_id: int
    head: int
    material_id: int | None
    polymer: str | None
    spool_id: int | None
    from_at: Moment | None
    to_at: Moment | None
    part_mg: int
    support_mg: int
    purge_mg: int
    real_mg: int | None
    real_from: FigureOrigin | None
