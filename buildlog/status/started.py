"""When a print that was just started should end: the figure that every screen shows from then on."""

import json
from collections.abc import Iterable
from typing import Any

from buildlog.proposals.prints import StartPrint
from buildlog.status.job_hours import print_ends
from buildlog.status.learning import Polymers
from buildlog.status.status import Status
from buildlog.terms import JobState, Moment
from buildlog.wording import near

Entry = tuple[str, int, str | None, str | None]
"""A row that was written: its table, its id, its image before and after."""
Rows = dict[tuple[str, int], dict[str, Any]]


def told_of_start(wish: Any, entries: Iterable[Entry], status: Status) -> str:
    """«It should end tomorrow 04:10, as such prints have run.»; "" where nothing was started that runs on.

    Told from the rows that the start wrote, without reading the record again; ``status`` may be of before, since a
    start teaches nothing.
    """
    if not isinstance(wish, StartPrint):
        return ""
    rows = {(table, row_id): json.loads(after) for table, row_id, _, after in entries if after is not None}
    started = (row for (table, _), row in rows.items() if table == "job" and row["state"] == JobState.RUNNING)
    job = next(started, None)
    if job is None:
        return ""
    learned = status.hours.learning.cell(job["printer_id"], _polymers(job["id"], rows, status), job["estimate_from"])
    ends = print_ends(Moment(job["started_at"]), job["estimate_minutes"], learned)
    when = near(ends, status.now, status.snapshot.settings.home_zone)
    return f"It should {'end' if ends > status.now else 'have ended'} {when}, as such prints have run."


def _polymers(job_id: int, rows: Rows, status: Status) -> Polymers:
    """Of all heads of the print: those it was queued with, and those that the start wrote."""
    asked = {feed.id: (feed.material_id, feed.polymer) for feed in status.snapshot.feeds_of_job.get(job_id, ())}
    for (table, row_id), row in rows.items():
        if table == "feed" and row["job_id"] == job_id:
            asked[row_id] = row["material_id"], row["polymer"]
    kept = status.snapshot.material
    named = (kept[material].polymer if material is not None else polymer for material, polymer in asked.values())
    return tuple({polymer for polymer in named if polymer})
