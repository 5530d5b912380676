"""Which revisions are current, and which older ones no longer count."""

from buildlog.facts.frozen import frozen
from buildlog.facts.old_revisions import good_for
from buildlog.facts.snapshot import Snapshot
from buildlog.terms import Moment, OldGoodFor, Side


@frozen
class OldPieces:
    """``current`` by part. ``answers`` by (revision, side of the piece) only where that is not *still good*."""

    current: dict[int, int]
    answers: dict[tuple[int, Side], OldGoodFor]

    def counts(self, revision_id: int, side: Side) -> bool:
        return (revision_id, side) not in self.answers


def judge_old(snapshot: Snapshot, now: Moment) -> OldPieces:
    """As of ``now``; a part whose first revision is still to come has that one."""
    current: dict[int, int] = {}
    answers: dict[tuple[int, Side], OldGoodFor] = {}
    for part_id, revisions in snapshot.revisions_of.items():
        known = [r for r in revisions if r.since_at <= now] or revisions[:1]
        current[part_id] = known[-1].id
        for revision in known[:-1]:
            for side in Side:
                answer = good_for(known, revision.id, side)
                if answer is not OldGoodFor.STILL_GOOD:
                    answers[revision.id, side] = answer
    return OldPieces(current, answers)
