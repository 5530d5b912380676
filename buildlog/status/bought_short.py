"""Which bought items to order, how many and by when."""

from collections import Counter
from collections.abc import Iterator, Sequence
from zoneinfo import ZoneInfo

from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.facts.stock import BoughtEntry, BoughtItem, Supplier
from buildlog.status.accounts import Accounts
from buildlog.status.baskets import BasketLine
from buildlog.status.needs import Needs
from buildlog.status.netting import lead_days, order_moment
from buildlog.status.outside_plan import use_outside
from buildlog.status.slot import Holds
from buildlog.status.timeline import Timeline
from buildlog.terms import BoughtAccount, Level, Moment, later


def bought_lines(
    snapshot: Snapshot, now: Moment, zone: ZoneInfo, accounts: Accounts, needs: Needs, timeline: Timeline
) -> tuple[BasketLine, ...]:
    """Counted items that slots and open assembly steps ask more of than is there and on order, in whole packs; those
    drawn for other things too of which, beyond what is asked for, no more is left than the reorder point; and rough
    ones that are low or out with nothing on order (one pack).

    A counted item is needed when printing reaches its first slot still to get (approximation: bought parts are fitted
    in the order in which the printed ones around them come).
    """
    asked, first_rank = _asked_by_slots(snapshot, needs)
    _add_steps(snapshot, needs, asked, first_rank)
    suppliers = {supplier.id: supplier for supplier in snapshot.suppliers}
    entries = grouped((e for e in snapshot.bought_entries if e.at <= now), lambda entry: entry.bought_item_id)
    lines = []
    for item in snapshot.bought_items:
        if item.retired_at is not None:
            continue
        supplier = suppliers.get(item.supplier_id) if item.supplier_id is not None else None
        state = accounts.bought[item.id]
        if item.account is BoughtAccount.ROUGH:
            if state.level in (Level.LOW, Level.OUT) and not state.on_order:
                is_out = state.level is Level.OUT
                lines.append(_line(snapshot, zone, item, supplier, item.pack_quantity, now, f"{state.level}", is_out))
            continue
        short = asked[item.id] - max(0, state.amount or 0) - state.on_order
        if asked[item.id] and short > 0:
            needed_at = timeline.moment_of_rank(first_rank.get(item.id, 0))
            lines.append(_line(snapshot, zone, item, supplier, short, needed_at, f"{short} {item.unit} short", True))
        else:
            lines += _outside_plan(snapshot, now, zone, item, supplier, entries.get(item.id, ()), -short)
    return tuple(lines)


def _outside_plan(
    snapshot: Snapshot,
    now: Moment,
    zone: ZoneInfo,
    item: BoughtItem,
    supplier: Supplier | None,
    entries: Sequence[BoughtEntry],
    left_over: int,
) -> Iterator[BasketLine]:
    days = lead_days(item.lead_days, supplier, snapshot.reference)
    use = use_outside(entries, days, now, zone)
    if use is not None and left_over <= use.order_at:
        reason = f"{use.per_week:.1f} {item.unit} a week go outside the plan: order at {use.order_at} {item.unit}"
        in_time = later(now, days * 24 * 60)
        yield _line(snapshot, zone, item, supplier, use.order_at + 1 - left_over, in_time, reason, False)


def _line(
    snapshot: Snapshot,
    zone: ZoneInfo,
    item: BoughtItem,
    supplier: Supplier | None,
    short: int,
    needed_at: Moment,
    reason: str,
    is_short: bool,
) -> BasketLine:
    pack = max(1, item.pack_quantity)
    packs = -(-short // pack)
    days = lead_days(item.lead_days, supplier, snapshot.reference)
    by = order_moment(needed_at, days, supplier, zone)
    return BasketLine(
        None, item.id, item.code, packs * pack, item.unit, packs * item.price_minor, by, reason, is_short
    )


def _asked_by_slots(snapshot: Snapshot, needs: Needs) -> tuple[Counter[int], dict[int, int]]:
    """What slots not filled yet ask of each item, and the earliest rank of one that nothing is there for."""
    asked: Counter[int] = Counter()
    first_rank: dict[int, int] = {}
    for slot in needs.slots:
        part = snapshot.part[slot.part]
        if part.bought_item_id is not None and slot.holds is not Holds.FILLED:
            asked[part.bought_item_id] += part.bought_quantity or 1
            if slot.holds is Holds.TO_GET:
                first_rank.setdefault(part.bought_item_id, slot.rank)
    return asked, first_rank


def _add_steps(snapshot: Snapshot, needs: Needs, asked: Counter[int], first_rank: dict[int, int]) -> None:
    """What assembly steps not ticked yet use up. They come when the first slot of their position still to get does.

    Steps on parts are left out: their pieces are not known before they are printed.
    """
    uses = grouped(snapshot.step_uses, lambda use: use.step_id)
    if not uses:
        return
    done = {(t.step_id, t.position_id) for t in snapshot.steps_done if t.reopened_at is None}
    reached: dict[int, int] = {}
    for slot in needs.slots:
        if slot.holds is Holds.TO_GET:
            reached.setdefault(slot.position, slot.rank)
    for step in snapshot.steps:
        if step.assembly_id is None or step.retired_at is not None or step.id not in uses:
            continue
        for position in snapshot.positions_of.get(step.assembly_id, ()):
            if (step.id, position.id) in done or position.id not in needs.by_position:
                continue
            rank = reached.get(position.id, 0)
            for use in uses[step.id]:
                asked[use.bought_item_id] += use.quantity
                first_rank[use.bought_item_id] = min(rank, first_rank.get(use.bought_item_id, rank))
