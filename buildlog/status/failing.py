"""How many prints failed so far, and how sure that makes one of the share."""

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.methods.jeffreys import interval
from buildlog.terms import JobState, Moment

CONFIDENCE = 0.9
"""Our choice: one in twenty lies below the low share, one in twenty above the high one."""


@frozen
class Failing:
    """``failed`` of ``ended`` prints, cancelled ones left out; restarts of a first layer are not counted as prints.
    ``low`` and ``high`` are shares, 0 and 1 as long as none has ended.
    """

    failed: int
    ended: int
    low: float
    high: float


def share_failing(snapshot: Snapshot, now: Moment) -> Failing:
    states = [job.state for job in snapshot.jobs if job.ended_at is not None and job.ended_at <= now]
    failed = states.count(JobState.FAILED)
    ended = failed + states.count(JobState.FINISHED)
    low, high = interval(failed, ended, CONFIDENCE) if ended else (0.0, 1.0)
    return Failing(failed, ended, low, high)
