"""Which bought items to order, how many and by when."""

from collections import Counter
from zoneinfo import ZoneInfo

from buildlog.facts.snapshot import Snapshot
from buildlog.facts.stock import BoughtItem, Supplier
from buildlog.status.accounts import Accounts
from buildlog.status.baskets import BasketLine
from buildlog.status.needs import Needs
from buildlog.status.netting import lead_days, order_moment
from buildlog.status.slot import Holds
from buildlog.status.timeline import Timeline
from buildlog.terms import BoughtAccount, Level, Moment, Origin


def bought_lines(
    snapshot: Snapshot, now: Moment, zone: ZoneInfo, accounts: Accounts, needs: Needs, timeline: Timeline
) -> tuple[BasketLine, ...]:
    """Counted items that slots and open assembly steps ask more of than is there and on order, in whole packs; and
    rough ones that are low or out with nothing on order (one pack).

    A counted item is needed when printing reaches its first slot still to get (approximation: bought parts are fitted
    in the order in which the printed ones around them come); what only steps ask for, now.
    """
    slots, first_rank = _asked_by_slots(snapshot, needs)
    steps = _asked_by_steps(snapshot)
    suppliers = {supplier.id: supplier for supplier in snapshot.suppliers}
    lines = []
    for item in snapshot.bought_items:
        if item.retired_at is not None:
            continue
        supplier = suppliers.get(item.supplier_id) if item.supplier_id is not None else None
        state = accounts.bought[item.id]
        if item.account is BoughtAccount.ROUGH:
            if state.level in (Level.LOW, Level.OUT) and not state.on_order:
                lines.append(_line(snapshot, zone, item, supplier, item.pack_quantity, now, f"{state.level}"))
            continue
        # slots are short by what free balance and orders do not cover; steps only compete for what slots leave
        free = max(0, (state.amount or 0) + state.on_order)
        short = slots[item.id] + max(0, steps[item.id] - free if not slots[item.id] else steps[item.id])
        if short > 0:
            needed_at = timeline.moment_of_rank(first_rank[item.id]) if item.id in first_rank else now
            reason = f"{short} {item.unit} short"
            lines.append(_line(snapshot, zone, item, supplier, short, needed_at, reason))
    return tuple(lines)


def _line(
    snapshot: Snapshot,
    zone: ZoneInfo,
    item: BoughtItem,
    supplier: Supplier | None,
    short: int,
    needed_at: Moment,
    reason: str,
) -> BasketLine:
    pack = max(1, item.pack_quantity)
    packs = -(-short // pack)
    days = lead_days(item.lead_days, supplier, snapshot.reference)
    by = order_moment(needed_at, days, supplier, zone)
    return BasketLine(None, item.id, item.code, packs * pack, packs * item.price_minor, by, reason)


def _asked_by_slots(snapshot: Snapshot, needs: Needs) -> tuple[Counter[int], dict[int, int]]:
    """Amounts still to get by item, and the earliest rank of a slot that asks."""
    short: Counter[int] = Counter()
    first_rank: dict[int, int] = {}
    for slot in needs.slots:
        part = snapshot.part[slot.part]
        if slot.holds is Holds.TO_GET and part.origin is Origin.BOUGHT and part.bought_item_id is not None:
            short[part.bought_item_id] += part.bought_quantity or 1
            first_rank.setdefault(part.bought_item_id, slot.rank)
    return short, first_rank


def _asked_by_steps(snapshot: Snapshot) -> Counter[int]:
    """What assembly steps not ticked yet use up, by item. Steps on parts are left out: their pieces are not known
    before they are printed.
    """
    done = Counter(
        tick.step_id for tick in snapshot.steps_done if tick.position_id is not None and tick.reopened_at is None
    )
    steps = {step.id: step for step in snapshot.steps if step.assembly_id is not None and step.retired_at is None}
    asked: Counter[int] = Counter()
    for use in snapshot.step_uses:
        step = steps.get(use.step_id)
        if step is not None and step.assembly_id is not None:
            positions = len(snapshot.positions_of.get(step.assembly_id, ()))
            asked[use.bought_item_id] += max(0, positions - done[step.id]) * use.quantity
    return asked
