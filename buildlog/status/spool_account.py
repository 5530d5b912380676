"""What is on each spool: the last reading and what was drawn since, with its ±."""

from collections.abc import Sequence

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.stock import Spool, SpoolEntry
from buildlog.methods import balance
from buildlog.methods.balance import Correction as Correction  # faces name what a reading corrected
from buildlog.methods.balance import Entry, Reading
from buildlog.status.open_time import OpenTime, is_wet, open_time
from buildlog.status.spool_draws import AFTER_ALL, SpoolFacts, facts_by_spool
from buildlog.terms import Moment, SpoolEntryKind
from buildlog.wording import grams


@frozen
class SpoolState:
    """One spool at ``now``.

    ``net_mg`` may lie below zero (then ``flagged`` says so and asks for a reading); ``pm_mg`` is its ±, ``low_mg``
    the low end. ``sealed``: never opened, or sealed again. ``wet``: open longer than its material bears, summed
    since it was last dried. ``still_to_draw_mg`` is what running prints will still take. ``correction`` is what the
    last reading corrected (computed and read); all of them: `spool_corrections`. ``usable``: received, neither
    empty nor retired.
    """

    spool_id: int
    material_id: int
    net_mg: int
    pm_mg: int
    drawn_since_reading_mg: int
    last_reading_at: Moment | None
    correction: Correction | None
    flagged: str
    opened_at: Moment | None
    sealed: bool
    dried_at: Moment | None
    open_minutes: int
    wet: bool
    empty: bool
    usable: bool
    still_to_draw_mg: int
    tare_assumed: bool
    loaded_on: tuple[int, int] | None = None

    @property
    def low_mg(self) -> int:
        return self.net_mg - self.pm_mg

    @property
    def free_mg(self) -> int:
        """What is left when the running prints are done, never below nothing."""
        return max(0, self.net_mg - self.still_to_draw_mg)


def settle_spools(snapshot: Snapshot, now: Moment) -> dict[int, SpoolState]:
    """Every spool at ``now``."""
    facts = facts_by_spool(snapshot, now)
    return {spool.id: _settle(snapshot, spool, facts[spool.id], now) for spool in snapshot.spools}


def spool_history(snapshot: Snapshot, spool_id: int, now: Moment) -> tuple[tuple[Moment, int], ...]:
    """The balance after everything that happened to one spool, oldest first, and at ``now``."""
    spool, facts = _one(snapshot, spool_id, now)
    marks = {spool.received_at, now} | {Moment(end) for e in facts.draws for end in (e.at, e.until) if end}
    moments = sorted(m for m in marks | {r.at for r in facts.readings} if m <= now)
    held = balance.balances(_entries(spool, facts), _readings(spool, facts.readings), moments)
    return tuple((at, one.amount) for at, one in zip(moments, held, strict=True))


def balances_at(
    snapshot: Snapshot, spools: Sequence[Spool], moments: Sequence[Moment], now: Moment
) -> tuple[tuple[int, ...], ...]:
    """Milligrams on each of some spools at each moment (none after ``now``); nothing once a spool was retired."""
    facts = facts_by_spool(snapshot, now, [spool.id for spool in spools], whole=True) if spools else {}
    columns = []
    for spool in spools:
        held = balance.balances(_entries(spool, facts[spool.id]), _readings(spool, facts[spool.id].readings), moments)
        gone = spool.retired_at or "9"
        columns.append([one.amount if at < gone else 0 for at, one in zip(moments, held, strict=True)])
    return tuple(zip(*columns, strict=True)) if columns else tuple(() for _ in moments)


def spool_corrections(snapshot: Snapshot, spool_id: int, now: Moment) -> tuple[Correction, ...]:
    """What each reading of one spool corrected, oldest first."""
    spool, facts = _one(snapshot, spool_id, now)
    return balance.corrections(_entries(spool, facts), _readings(spool, facts.readings))


def _one(snapshot: Snapshot, spool_id: int, now: Moment) -> tuple[Spool, SpoolFacts]:
    spool = next(spool for spool in snapshot.spools if spool.id == spool_id)
    return spool, facts_by_spool(snapshot, now, (spool_id,), whole=True)[spool_id]


def _entries(spool: Spool, facts: SpoolFacts) -> list[Entry]:
    return [Entry(spool.received_at, spool.content_mg), *facts.draws]


def _readings(spool: Spool, readings: list[SpoolEntry]) -> list[Reading]:
    """Net readings; what reads less than the empty reel is kept as read, and an emptied spool holds nothing."""
    return [Reading(r.at, 0 if r.gross_mg is None else r.gross_mg - spool.tare_mg) for r in readings]


def _settle(snapshot: Snapshot, spool: Spool, facts: SpoolFacts, now: Moment) -> SpoolState:
    still = _still_to_draw_mg(facts.running, now)
    held, correction, before = _balance(spool, facts, still, now)
    opened = open_time(facts, now, _found_used_at(snapshot, spool, facts))
    empty = bool(facts.readings) and facts.readings[-1].kind is SpoolEntryKind.EMPTIED
    retired = spool.retired_at is not None and spool.retired_at <= now
    return SpoolState(
        spool_id=spool.id,
        material_id=spool.material_id,
        net_mg=held.amount,
        pm_mg=0 if empty else _pm_mg(snapshot, spool, held),
        drawn_since_reading_mg=held.drawn_since,
        last_reading_at=Moment(held.last_reading_at) if held.last_reading_at else None,
        correction=correction,
        flagged=_flag(snapshot, spool, facts, held, correction, before),
        opened_at=opened.opened_at,
        sealed=opened.sealed,
        dried_at=opened.dried_at,
        open_minutes=opened.minutes,
        wet=_is_wet(snapshot, spool, opened),
        empty=empty,
        usable=not empty and not retired and spool.received_at <= now,
        still_to_draw_mg=still,
        tare_assumed=spool.tare_assumed,
    )


def _balance(
    spool: Spool, facts: SpoolFacts, still_to_draw_mg: int, now: Moment
) -> tuple[balance.Balance, Correction | None, Reading | None]:
    """The balance, what the last reading corrected, and the reading before that one.

    Only what lies after the last but one reading is looked at. A spool never weighed needs no replay at all.
    """
    if spool.received_at > now:
        return balance.Balance(0, None, 0), None, None
    if not facts.readings:
        drawn = -sum(entry.amount for entry in facts.draws) - still_to_draw_mg
        return balance.Balance(spool.content_mg - drawn, None, drawn), None, None
    last_two = _readings(spool, facts.readings[-2:])
    before = last_two[0] if len(last_two) == 2 else None
    entries = _entries(spool, facts)
    held = balance.balance(entries, last_two, now)
    return held, balance.corrections(entries, last_two)[-1], before


def _still_to_draw_mg(running: list[Entry], now: Moment) -> int:
    """What feeds that go on have not drawn yet, at least nothing."""
    if not running:
        return 0
    return balance.balance(running, (), now).amount - sum(entry.amount for entry in running)


def _pm_mg(snapshot: Snapshot, spool: Spool, held: balance.Balance) -> int:
    """± of the balance: that of the scale and of an assumed tare, or of the fill as received; it grows with what was
    drawn since by the share that a weigh-in may differ (usual 3 %), as the estimates of prints are only so good.
    """
    usual = snapshot.reference.usual
    grown = round(held.drawn_since * usual["weigh_in_alarm_of_drawn_share"].value)
    if held.last_reading_at is None:
        return spool.content_pm_mg + grown
    return usual["kitchen_scale_pm_mg"].whole + (spool.tare_pm_mg if spool.tare_assumed else 0) + grown


def surprise(snapshot: Snapshot, spool: Spool, state: SpoolState, gross_mg: int) -> str:
    """What is odd about a weigh-in now, in words; nothing where it reads about what was expected.

    Before anything was drawn the first one says what there is, not what is wrong: a spool may be taken up half used.
    """
    read, drawn, first = gross_mg - spool.tare_mg, state.drawn_since_reading_mg, state.last_reading_at is None
    if first and not drawn:
        return ""
    return _told(snapshot, spool, read, state.net_mg, drawn, first)


def _told(snapshot: Snapshot, spool: Spool, read: int, expected: int, drawn: int, first: bool) -> str:
    """A weigh-in differs by more than max(15 g, 3 % of what was drawn since the one before).

    At the first weigh-in the ± of an assumed tare and of the fill count as well; between two they cancel out.
    """
    if abs(read - expected) <= _allowed_mg(snapshot, spool, drawn, first):
        return ""
    return f"weighed {grams(read)} where {grams(expected)} were expected: look for the cause"


def _allowed_mg(snapshot: Snapshot, spool: Spool, drawn: int, first: bool) -> float:
    usual = snapshot.reference.usual
    allowed = max(usual["weigh_in_alarm_mg"].value, usual["weigh_in_alarm_of_drawn_share"].value * drawn)
    return allowed + (spool.content_pm_mg + (spool.tare_pm_mg if spool.tare_assumed else 0) if first else 0)


def _found_used_at(snapshot: Snapshot, spool: Spool, facts: SpoolFacts) -> Moment:
    """When the first weigh-in read clearly less than a full spool, before anything was drawn: it came open."""
    if not facts.readings or facts.first_draw_at <= facts.readings[0].at:
        return AFTER_ALL
    lacking = spool.content_mg - _readings(spool, facts.readings[:1])[0].amount
    return facts.readings[0].at if lacking > _allowed_mg(snapshot, spool, 0, True) else AFTER_ALL


def _flag(
    snapshot: Snapshot,
    spool: Spool,
    facts: SpoolFacts,
    held: balance.Balance,
    correction: Correction | None,
    before: Reading | None,
) -> str:
    """Below zero, or the last weigh-in reads what was not expected."""
    if held.is_negative:
        return f"{grams(held.amount)} by the record: weigh it"
    if correction is None or (before is None and facts.first_draw_at > facts.readings[-1].at):
        return ""
    drawn = max(0, (spool.content_mg if before is None else before.amount) - correction.computed)
    return _told(snapshot, spool, correction.read, correction.computed, drawn, before is None)


def _is_wet(snapshot: Snapshot, spool: Spool, opened: OpenTime) -> bool:
    return is_wet(snapshot.material[spool.material_id], opened.minutes, snapshot.reference)
