"""Words that were told on the record."""

from collections.abc import Iterable

from buildlog.facts.snapshot import Snapshot


def why_prints_failed(snapshot: Snapshot) -> Iterable[str]:
    """Causes of prints and of their pieces, in the order in which they were told of each; empty ones too."""
    yield from (line.cause for line in snapshot.job_lines)
    yield from (job.cause for job in snapshot.jobs)
