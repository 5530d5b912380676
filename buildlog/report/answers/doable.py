"""What can be done now by a person with what is on hand."""

from buildlog.facts.naming import position_name
from buildlog.report.table import Column, Table
from buildlog.status.status import Status


def what_now(status: Status) -> Table:
    rows = tuple(
        (
            found.text,
            position_name(status.snapshot, found.position_id) if found.position_id is not None else None,
            found.minutes,
            round(found.helps, 2),
            found.goal,
            found.needs_two,
            found.helper_can,
        )
        for found in status.doable
    )
    columns = (
        Column("text", "What"),
        Column("position", "Where"),
        Column("minutes", "Min", right=True),
        Column("helps", "Helps", lambda value: f"{value:.2f}", right=True),
        Column("goal", "Goal", _yes),
        Column("needs_two", "Two", _yes),
        Column("helper_can", "Helper", _yes),
    )
    return Table("now", "What can be done now", columns, rows, "Nothing can be done by hand right now.")


def _yes(value: bool) -> str:
    return "yes" if value else ""
