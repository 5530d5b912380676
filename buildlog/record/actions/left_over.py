"""What is to become of old pieces that lie free when their part is revised."""

from collections import Counter

from buildlog.facts.old_revisions import good_for
from buildlog.record.actions.piece_accounts import holds
from buildlog.record.tables.pieces import Lot
from buildlog.record.tables.tree import Part, Revision
from buildlog.record.writer import Work
from buildlog.terms import OldGoodFor, Side

_PROPOSED = {OldGoodFor.STAND_INS: "to stand in", OldGoodFor.NO_GOOD: "no good, to be scrapped"}


def told_of_left_over(work: Work, part: Part) -> str:
    """« Free: 3 SHIN L to stand in; 2 SHIN R no good, to be scrapped.», empty where none lies free."""
    known = [revision for revision in work.all(Revision, part_id=part.id) if revision.since_at <= work.at]
    known_ids = {revision.id for revision in known}
    free: Counter[tuple[OldGoodFor, Side]] = Counter()
    for lot in work.all(Lot, part_id=part.id):
        if lot.revision_id in known_ids:
            free[good_for(known, lot.revision_id or 0, lot.side), lot.side] += holds(work, lot).free
    told = [
        f"{pieces} {part.code}{f' {side}' if part.handed else ''} {_PROPOSED[answer]}"
        for (answer, side), pieces in free.items()
        if pieces and answer in _PROPOSED
    ]
    return f" Free: {'; '.join(told)}." if told else ""
