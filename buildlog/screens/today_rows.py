"""The lines of Today, section by section, from a Status."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime, time, timedelta
from itertools import chain
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from buildlog.facts.naming import position_name
from buildlog.screens.acts.named import file_of, spool_of, told_of_order
from buildlog.screens.lines import BETWEEN, line, none, section, soon
from buildlog.screens.machine_rows import machine_row, machines_section, spools_told
from buildlog.screens.today_film import film_rows
from buildlog.screens.today_work import work_rows
from buildlog.screens.widgets.alert_list import folded
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.rows import Cell, GridRow, SpanCell
from buildlog.screens.widgets.tones import Tone
from buildlog.status.blocker import Blocker, BlockerKind
from buildlog.status.waits import how_many_wait
from buildlog.terms import Moment, moment, when
from buildlog.wording import clock, count, day, grams, hours, near

if TYPE_CHECKING:
    from buildlog.status.alerts import Alert
    from buildlog.status.machines import Offer
    from buildlog.status.milestones import MilestoneState, TargetState
    from buildlog.status.status import Status

Window = tuple[Moment, Moment]
OFFERS_EACH = 3
PARCELS_DAYS = 3


def headline(status: Status, build_id: int | None) -> list[Fact]:
    """The next day that does not move, my hours before it, print hours left, of one build or of all."""
    facts = []
    milestone = next_hard(status, build_id)
    if milestone is not None:
        near_by = milestone.days_left <= 7
        days = "today" if milestone.days_left == 0 else f"in {count(milestone.days_left, 'day')}"
        facts.append(Fact(milestone.name, days, Tone.CAUTION if near_by else Tone.STRONG))
        facts.append(Fact("my hours", hours(milestone.bench_minutes)))
    facts.append(Fact("to print", hours(minutes_to_print(status, build_id))))
    filming = min((at for build, at in status.outlook.filming.items() if build_id in (None, build)), default=None)
    if filming is not None:
        facts.append(Fact("filming", day(filming, status.snapshot.settings.home_zone)))
    return facts


def top_rows(status: Status, window: Window, all_alerts: bool) -> list[GridRow]:
    """Machines, what to put on when leaving, what asks for an answer, the last thing before bed."""
    return [
        *_machines(status),
        *_leaving(status, window),
        *film_rows(status),
        *_alerts(status, all_alerts),
        *_before_bed(status),
    ]


def next_hard(status: Status, build_id: int | None) -> MilestoneState | None:
    """The next hard milestone of one build, or shared by all."""
    ahead = [m for m in status.outlook.milestones if m.hard and m.days_left >= 0 and m.build_id in (None, build_id)]
    return status.outlook.next_hard if build_id is None else next(iter(ahead), None)


def minutes_to_print(status: Status, build_id: int | None) -> float:
    """Of one build as Mirror has it: what is beneath its root."""
    if build_id is None:
        return status.hours.total_minutes
    top = next((row.middle for row in status.progress.mirror(build_id)), None)
    return top.hours_beneath_minutes if top is not None else 0


def left_rows(status: Status, build_id: int | None) -> list[GridRow]:
    """What breaks the milestone, what comes by itself."""
    return [*_breakers(status, next_hard(status, build_id)), *_soon(status)]


def right_rows(status: Status) -> list[GridRow]:
    """What can be done now, in the order of the Status."""
    rows = work_rows(status)
    return section("doable", "Can be done now", rows or [none("doable", "Nothing can be done by hand right now.")])


def _machines(status: Status) -> list[GridRow]:
    order = sorted(status.machines.printers, key=lambda m: not (m.running is not None and m.running.past_end))
    return machines_section(machine_row(status, machine) for machine in order)


def _leaving(status: Status, window: Window) -> list[GridRow]:
    """The longest that end in the window, some for each printer."""
    zone = status.snapshot.settings.home_zone
    leaving, back = (near(at, status.now, zone) for at in window)
    title = f"Put on when leaving {leaving}, back {back}"
    rows = [_offer(status, offer, "offer") for offer in _some_each(status.machines.window(*window), OFFERS_EACH)]
    return section("leaving", title, rows or [none("offer", "No ready file for a free printer ends by then.")])


def _before_bed(status: Status) -> list[GridRow]:
    """One print for the night on each printer, and spools that are to be dried."""
    night = tonight(status)
    zone = status.snapshot.settings.home_zone
    rows = [_offer(status, offer, "night") for offer in _some_each(status.machines.window(*night), 1)]
    rows += [_to_dry(status, spool_id) for spool_id in _wet(status)[:OFFERS_EACH]]
    return section("bed", f"Before bed, {clock(night[0], zone)} to {clock(night[1], zone)}", rows)


def _wet(status: Status) -> list[int]:
    """Spools to dry overnight: those loaded, then those that ready files would be fed from."""
    loaded = (state for machine in status.machines.printers for state in machine.spools.values())
    wet = [state.spool_id for state in loaded if state.wet]
    wet += [c.spool_id for o in status.machines.offers for c in o.spools if c.wet and c.spool_id is not None]
    return list(dict.fromkeys(wet))


def _to_dry(status: Status, spool_id: int) -> GridRow:
    state = status.accounts.spools[spool_id]
    told = f"{spool_of(status, spool_id).code}, open for {count(state.open_minutes // 1440, 'day')}"
    return line(f"spool:{spool_id}", Cell("dry", Tone.CAUTION), told, grams(state.net_mg))


def tonight(status: Status) -> Window:
    """From the end of my day to the start of the next, by the day rhythm of the settings."""
    settings = status.snapshot.settings
    zone = ZoneInfo(settings.home_zone)
    home = when(status.now).astimezone(zone)

    def at(days: int, minutes: int) -> Moment:
        of_day = time(*divmod(minutes % 1440, 60))
        return moment(datetime.combine(home.date() + timedelta(days=days), of_day, zone))

    bed = at(0, settings.day_ends_minutes)
    return max(bed, status.now), at(1, settings.day_starts_minutes)


def _some_each(offers: Sequence[Offer], most: int) -> Iterator[Offer]:
    """So many for each printer; those that no spool carries in one go come last."""
    taken: dict[int, int] = {}
    for offer in sorted(offers, key=lambda offer: not all(check.carries for check in offer.spools)):
        taken[offer.printer_id] = taken.get(offer.printer_id, 0) + 1
        if taken[offer.printer_id] <= most:
            yield offer


def _offer(status: Status, offer: Offer, kind: str) -> GridRow:
    """Key ``KIND:PRINTER-FILE``: the file, its spool, and when it ends."""
    zone = status.snapshot.settings.home_zone
    file = file_of(status, offer.print_file_id)
    spans = [
        (file.name or file.code, Tone.PLAIN),
        (BETWEEN, Tone.FAINT),
        spools_told(offer),
        (BETWEEN + "fumes" if "styrene" in offer.cautions else "", Tone.CAUTION),
    ]
    key = f"{kind}:{offer.printer_id}-{offer.print_file_id}"
    code = status.snapshot.printer[offer.printer_id].code
    return line(key, code, SpanCell(tuple(spans)), f"ends {soon(offer.ends_at, status.now, zone)}")


def _alerts(status: Status, all_alerts: bool) -> list[GridRow]:
    rows = folded([_alert(status, i, alert) for i, alert in enumerate(status.alerts)], all_alerts)
    return section("alerts", "Asks for you", [*_to_catch_up(status), *rows])


def _to_catch_up(status: Status) -> list[GridRow]:
    """How many things should have happened meanwhile."""
    waiting = how_many_wait(status)
    text = f"{count(waiting, 'thing')} should have happened meanwhile; enter answers them"
    return [line("catch-up:", Cell("catch up", Tone.CAUTION), text)] if waiting else []


def _alert(status: Status, index: int, alert: Alert) -> GridRow:
    zone = status.snapshot.settings.home_zone
    tone = {"order now": Tone.BAD, "look": Tone.CAUTION}.get(alert.level.value, Tone.FAINT)
    due = day(alert.due_at, zone) if alert.due_at else ""
    return line(f"alert:{index}", Cell(alert.level.value, tone), alert.text, "" if due in alert.text else due)


def _breakers(status: Status, milestone: MilestoneState | None) -> list[GridRow]:
    if milestone is None:
        return []
    zone = status.snapshot.settings.home_zone
    breakers = status.outlook.breakers if milestone is status.outlook.next_hard else milestone.breakers[:OFFERS_EACH]
    rows = [_breaker(status, target) for target in breakers]
    return section("breakers", f"What breaks {milestone.name}, {day(milestone.due_at, zone)}", rows)


def _breaker(status: Status, target: TargetState) -> GridRow:
    """Key ``position:ID``: what holds it, nearest first."""
    leaves = [leaf for position in target.position_ids for leaf, _ in status.blockers.closure(position)]
    texts = list(dict.fromkeys(leaf.text for leaf in leaves))
    if target.blockers == 0 and target.load_until is not None:
        zone = status.snapshot.settings.home_zone
        beside = f"may not carry load before {near(target.load_until, status.now, zone)}"
    else:
        holds = "1 holds it" if target.blockers == 1 else f"{target.blockers} hold it"
        beside = f"{holds}: {'; '.join(texts[:OFFERS_EACH])}"
    key = f"position:{target.position_ids[0]}" if target.position_ids else f"assembly:{target.assembly_id}"
    return line(
        key, Cell(target.name, Tone.STRONG), beside, hours(target.minutes_beneath) if target.minutes_beneath else ""
    )


def _soon(status: Status) -> list[GridRow]:
    """What comes by itself: cures, parcels."""
    return section("soon", "Comes by itself", [*_cures(status), *_parcels(status)])


def _cures(status: Status) -> Iterator[GridRow]:
    zone = status.snapshot.settings.home_zone
    leaves = chain.from_iterable(status.blockers.leaves.values())
    curing = [leaf for leaf in leaves if leaf.kind is BlockerKind.CURING]
    timed: list[tuple[Moment, Blocker]] = [(leaf.until, leaf) for leaf in curing if leaf.until is not None]
    for until, leaf in sorted(timed, key=lambda pair: pair[0]):
        place = position_name(status.snapshot, leaf.position_id)
        yield line(f"curing:{leaf.position_id}", place, leaf.text, soon(until, status.now, zone))


def _parcels(status: Status) -> Iterator[GridRow]:
    """Orders due in the next days; what should have come is among the alerts."""
    zone = status.snapshot.settings.home_zone
    until = moment(when(status.now) + timedelta(days=PARCELS_DAYS))
    for order in status.snapshot.orders:
        if order.closed_at is None and status.now < order.expected_at <= until:
            told = f"parcel: {told_of_order(status, order.id)}"
            yield line(f"order:{order.id}", order.code, told, day(order.expected_at, zone))
