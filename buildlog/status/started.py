"""When a print that was just started should end: the figure that every screen shows from then on."""

from collections.abc import Iterable
from typing import Any

from buildlog.facts.snapshot import Snapshot
from buildlog.proposals.prints import StartPrint
from buildlog.status.job_hours import running_jobs
from buildlog.status.learning import Learning, polymers_of_jobs
from buildlog.terms import Moment
from buildlog.wording import near

Entry = tuple[str, int, str | None, str | None]
"""A row that was written: its table, its id, its image before and after."""


def told_of_start(wish: Any, entries: Iterable[Entry], snapshot: Snapshot, learning: Learning, now: Moment) -> str:
    """«It should end tomorrow 04:10, as such prints have run.»; "" where nothing was started that runs on.

    ``snapshot`` is that of after the start; ``learning`` may be of before, since a start teaches nothing.
    """
    if not isinstance(wish, StartPrint):
        return ""
    written = {row_id for table, row_id, _, _ in entries if table == "job"}
    running = running_jobs(snapshot, now, learning, polymers_of_jobs(snapshot))
    ends = next((job.ends_at for job in running if job.job_id in written), None)
    if ends is None:
        return ""
    when = near(ends, now, snapshot.settings.home_zone)
    return f"It should {'end' if ends > now else 'have ended'} {when}, as such prints have run."
