"""How things stood at an earlier moment, seen by what is known of the build today."""

import dataclasses

from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Usage
from buildlog.status.status import Status, take_stock
from buildlog.terms import Moment


def as_of(status: Status, at: Moment | None) -> Status:
    """What lay there then may since be of a revision that no longer counts, or have been told to be elsewhere.

    A usage that was typed in after ``at`` counts as standing then already, as the first revision of a part does:
    a build is often described after it began. One that took over from another, by superseding, does not.
    """
    if at is None or at >= status.now:
        return status
    return take_stock(_described_by(status.snapshot, at), at)


def _described_by(snapshot: Snapshot, at: Moment) -> Snapshot:
    taken_over = {(usage.assembly_id, usage.ended_at) for usage in snapshot.usages}
    late = [u for u in snapshot.usages if u.since_at > at and (u.assembly_id, u.since_at) not in taken_over]
    if not late:
        return snapshot
    moved = {usage.id for usage in late}
    return dataclasses.replace(
        snapshot, usages=tuple(_since(usage, at) if usage.id in moved else usage for usage in snapshot.usages)
    )


def _since(usage: Usage, at: Moment) -> Usage:
    return dataclasses.replace(usage, since_at=at)
