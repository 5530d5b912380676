"""What was left at the end of each week, replayed from dated facts, and what will be left at the pace."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from datetime import timedelta
from zoneinfo import ZoneInfo

from buildlog.facts.frozen import frozen
from buildlog.facts.pieces import Lot
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Revision
from buildlog.methods import burn_down
from buildlog.methods.weeks import weeks_between
from buildlog.status.ended_usages import ended_slots
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.netting import MaterialOutlook
from buildlog.status.timeline import Timeline
from buildlog.terms import LotEntryKind, LotOrigin, Moment, OldGoodFor, Side, moment, when

WEEKS_BACK = 26
Curve = tuple[tuple[Moment, float], ...]
Changes = defaultdict[tuple[int, Side], list[tuple[Moment, float]]]


@frozen
class BurnDown:
    """Print hours (``material_id`` None) or grams of a material on hand. ``actual`` ends at now, where ``forecast``
    and its band ``low`` (fast pace, least left) and ``high`` (slow pace, most left) begin.
    """

    material_id: int | None
    unit: str
    actual: Curve
    forecast: Curve
    low: Curve
    high: Curve
    order_by: Moment | None
    usual_pace: bool


def past_week_ends(now: Moment, zone: ZoneInfo, since: Moment) -> tuple[Moment, ...]:
    """Ends of the last full weeks at home, back to the one that holds ``since``, at most 26."""
    at = when(now)
    first = max(when(since), at - timedelta(weeks=WEEKS_BACK))
    ends = (moment(week.end) for week in weeks_between(min(first, at), at, zone))
    return tuple(end for end in ends if end < now)


def hours_burn_down(
    snapshot: Snapshot, now: Moment, zone: ZoneInfo, needs: Needs, hours: Hours, timeline: Timeline
) -> BurnDown:
    """Print hours left, as they were: slots asked for then less the pieces then there, in today's minutes.

    The slots of a usage are those that it has today, from its ``since`` until it ended (approximation: the tree keeps
    no dates for counts). Pieces count from when they were made until they went or a later revision declared them no
    longer good. The last point is what is left now.
    """
    since = min((build.created_at for build in snapshot.builds), default=now)
    ends = past_week_ends(now, zone, since)
    changes = _asked(snapshot, now, needs)
    _take_off_made(changes, snapshot, now)
    left = [0.0] * len(ends)
    for key, piece in hours.pieces.items():
        for first, after, lacking in burn_down.replay(changes[key], ends) if piece.expected_minutes else ():
            for index in range(first, after) if lacking > 0 else ():
                left[index] += lacking * piece.expected_minutes / 60
    now_left = hours.total_minutes / 60
    pace = hours.learning.pace
    low, high = _band(pace.hours_per_week, pace.low, pace.high)
    weekly = [timeline.first_minutes / 60] + [timeline.week_minutes / 60] * (len(timeline.weeks) - 1)
    forecast, least, most = _forecast(now, timeline, now_left, weekly, low, high)
    actual = (*zip(ends, left, strict=True), (now, now_left))
    return BurnDown(None, "h", actual, forecast, least, most, None, pace.usual)


def material_burn_down(
    now: Moment,
    outlook: MaterialOutlook,
    actual: Curve,
    timeline: Timeline,
    pace: tuple[float, float, float],
) -> BurnDown:
    """Grams on hand: replayed balances, then what each week takes at the pace and brings of what is on order, with
    nothing new ordered.
    """
    low, high = _band(*pace)
    weekly = [week.need_mg / 1000 for week in outlook.weeks]
    arriving = [week.arriving_mg / 1000 for week in outlook.weeks]
    forecast, least, most = _forecast(now, timeline, outlook.on_hand_mg / 1000, weekly, low, high, arriving)
    return BurnDown(outlook.material_id, "g", actual, forecast, least, most, outlook.order_by, outlook.usual_pace)


def _band(mean: float, low: float, high: float) -> tuple[float, float]:
    """The slow and the fast pace as shares of the middle one."""
    return (min(1.0, low / mean), max(1.0, high / mean)) if mean > 0 else (1.0, 1.0)


def _forecast(
    now: Moment,
    timeline: Timeline,
    left: float,
    weekly: Sequence[float],
    low: float,
    high: float,
    arriving: Sequence[float] = (),
) -> tuple[Curve, Curve, Curve]:
    """Middle, least and most left, now and at the end of each week, until nothing is left even at the slow pace."""
    marks = [now, *(moment(week.end) for week in timeline.weeks)]
    told = list(zip(marks, burn_down.forecast(left, weekly, low, high, arriving), strict=False))
    some_left = max((index for index, (_, f) in enumerate(told) if f.most > 0), default=-1)
    told = told[: some_left + 2]
    return (
        tuple((at, f.left) for at, f in told),
        tuple((at, f.least) for at, f in told),
        tuple((at, f.most) for at, f in told),
    )


def _asked(snapshot: Snapshot, now: Moment, needs: Needs) -> Changes:
    """Slots by (part, side), each from the moment on that its usage was there until it ended."""
    since = {usage.id: usage.since_at for usage in snapshot.usages}
    slots = Counter((slot.part, slot.side, since[slot.usage]) for slot in needs.slots)
    changes: Changes = defaultdict(list)
    for (part, side, at), count in slots.items():
        changes[part, side].append((at, count))
    for ended in ended_slots(snapshot, now):
        changes[ended.part_id, ended.side] += ((ended.since_at, ended.slots), (ended.ended_at, -ended.slots))
    return changes


_LOST = {LotEntryKind.SCRAPPED: -1, LotEntryKind.MISSING: -1, LotEntryKind.FOUND: 1}


def _take_off_made(changes: Changes, snapshot: Snapshot, now: Moment) -> None:
    """Pieces by (part, side): from when they were made until they went or stopped counting. A split moves nothing:
    parts of a lot are counted where it was made, what is lost of them where they are.
    """
    ended = _stopped_counting(snapshot, now)
    for lot in snapshot.lots:
        if lot.origin is not LotOrigin.SPLIT:
            changes[lot.part_id, lot.side] += _until(lot.made_at, -lot.quantity, ended, lot)
    for entry in snapshot.lot_entries:
        sign = _LOST.get(entry.kind)
        if sign:
            lot = snapshot.lot[entry.lot_id]
            changes[lot.part_id, lot.side] += _until(entry.at, -sign * entry.pieces, ended, lot)


def _until(at: Moment, pieces: int, ended: dict[int, tuple[Moment | None, ...]], lot: Lot) -> Curve:
    """A change, and its end where the revision of the lot stopped counting."""
    ends = ended.get(lot.revision_id)
    end = ends[lot.side is Side.RIGHT] if ends else None
    if end is None:
        return ((at, pieces),)
    return ((at, pieces), (end, -pieces)) if at < end else ()


def _stopped_counting(snapshot: Snapshot, now: Moment) -> dict[int, tuple[Moment | None, ...]]:
    """When a revision stopped counting, for the left (and the neutral) and for the right: at the first later one that
    does not call it still good.
    """
    ended: dict[int, tuple[Moment | None, ...]] = {}
    for revisions in snapshot.revisions_of.values():
        for index, old in enumerate(revisions[:-1]):
            later = [r for r in revisions[index + 1 :] if r.since_at <= now]
            ends = tuple(_first_no_good(later, side) for side in (Side.LEFT, Side.RIGHT))
            if any(ends):
                ended[old.id] = ends
    return ended


def _first_no_good(later: Iterable[Revision], side: Side) -> Moment | None:
    for revision in later:
        answer = revision.old_right if side is Side.RIGHT else revision.old_left
        if answer is not None and answer is not OldGoodFor.STILL_GOOD:
            return revision.since_at
    return None
