"""How every build stands: each subassembly on both sides, printers, the next days that do not move."""

from typing import Any

from buildlog.facts.naming import position_name
from buildlog.report.table import Column, Table
from buildlog.status.progress import PositionProgress
from buildlog.status.status import Status
from buildlog.terms import BuildState
from buildlog.wording import day_and_clock, hours, near

_SIDES = (("left", "L"), ("right", "R"), ("middle", "–"))


def mirror(status: Status, build_id: int) -> Table:
    """Every assembly of a build: slots filled of all, left, right or in the middle, and what holds it."""
    build = next(b for b in status.snapshot.builds if b.id == build_id)
    rows, depths = [], []
    for row in status.progress.mirror(build_id):
        sides = (row.left, row.right, row.middle)
        held = sum(p.blockers_beneath for p in sides if p)
        minutes = round(sum(p.hours_beneath_minutes for p in sides if p))
        assembly = status.snapshot.assembly[row.assembly_id]
        cells: list[Any] = [assembly.code, assembly.name]
        cells.extend(p and [p.filled, p.slots] for p in sides)
        rows.append((*cells, held, minutes, row.held_side and row.held_side.value))
        depths.append(row.depth)
    columns = (
        Column("assembly", "Assembly"),
        Column("name", "Name"),
        *(
            Column(f"{side}_filled_of", title, lambda pair: f"{pair[0]}/{pair[1]}", right=True)
            for side, title in _SIDES
        ),
        Column("blockers", "Blockers", right=True),
        Column("print_minutes", "Print", hours, right=True),
        Column("held_side", "Held"),
    )
    return Table(
        build.code, f"{build.code} {build.name}", columns, tuple(rows), "No assemblies yet.", depths=tuple(depths)
    )


def machines(status: Status) -> Table:
    zone = status.snapshot.settings.home_zone
    rows = tuple(
        (
            machine.code,
            machine.down_text or machine.job_name or ("free" if machine.is_free else ""),
            machine.running and machine.running.ends_at,
            machine.running and machine.running.past_end,
            machine.running and machine.running.remaining_minutes,
        )
        for machine in status.machines.printers
    )
    columns = (
        Column("printer", "Printer"),
        Column("doing", "Doing"),
        Column("ends_at", "Ends", lambda at: near(at, status.now, zone)),
        Column("past_end", "", lambda past: "take it off" if past else ""),
        Column("remaining_minutes", "Left", hours, right=True),
    )
    return Table("printers", "Printers", columns, rows, "No printers are on the record.")


def milestones(status: Status, build_id: int | None = None) -> Table:
    """Those of all builds, or of one and what builds share."""
    zone = status.snapshot.settings.home_zone
    rows = tuple(
        (
            m.code,
            m.name,
            m.due_at,
            m.hard,
            m.days_left,
            m.bench_minutes,
            m.is_met,
            sum(not t.is_met for t in m.targets),
        )
        for m in status.outlook.milestones
        if build_id is None or m.build_id in (None, build_id)
    )
    columns = (
        Column("milestone", "Milestone"),
        Column("name", "Name"),
        Column("due_at", "Due", lambda at: day_and_clock(at, zone)),
        Column("hard", "", lambda hard: "hard" if hard else "soft"),
        Column("days_left", "Days", right=True),
        Column("bench_minutes", "My hours", hours, right=True),
        Column("met", "Met", lambda met: "yes" if met else "no"),
        Column("unmet_targets", "Open", right=True),
    )
    return Table("milestones", "Days to make", columns, rows, "No milestones are on the record.")


def status_tables(status: Status) -> tuple[Table, ...]:
    """All of it, open builds first, as ``buildlog status`` says it."""
    builds = [b for b in status.snapshot.builds if b.retired_at is None and b.state is not BuildState.CLOSED]
    return (machines(status), milestones(status), *(mirror(status, build.id) for build in builds))


def as_plain(status: Status) -> dict[str, Any]:
    """The whole Status in raw figures, for ``status --json``."""
    snapshot = status.snapshot
    return {
        "now": status.now,
        "positions": {
            position_name(snapshot, position_id): _progress(progress)
            for position_id, progress in sorted(status.progress.by_position.items())
        },
        "parts": [
            {
                "part": snapshot.part[need.part_id].code,
                "side": need.side.value,
                "needed": need.needed,
                "usable": need.usable,
                "under_way": need.under_way,
                "to_get": need.to_get,
                "held": need.held,
                "stood_in": need.stood_in,
                "spares_to_get": need.spares_to_get,
            }
            for need in status.needs.by_part.values()
        ],
        "drawn_mg": {
            build.code: figures.all_time.drawn_mg
            for build in snapshot.builds
            if (figures := status.figures.by_build.get(build.id)) is not None
        },
    }


def _progress(found: PositionProgress) -> dict[str, Any]:
    return {name: getattr(found, name) for name in found._fields if name != "position_id"}
