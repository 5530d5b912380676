"""How much of a material was on hand at the end of each past week."""

from zoneinfo import ZoneInfo

from buildlog.facts.snapshot import Snapshot
from buildlog.status.burn_down import Curve, past_week_ends
from buildlog.status.spool_account import balances_at
from buildlog.terms import Moment


def grams_on_hand(snapshot: Snapshot, now: Moment, zone: ZoneInfo, material_id: int) -> Curve:
    """Balances of its spools as the record tells them now: a corrected fact is corrected in the past too."""
    spools = [spool for spool in snapshot.spools if spool.material_id == material_id]
    since = min((spool.received_at for spool in spools), default=now)
    ends = past_week_ends(now, zone, since)
    held = balances_at(snapshot, spools, ends, now)
    return tuple((end, sum(max(0, mg) for mg in row) / 1000) for end, row in zip(ends, held, strict=True))
