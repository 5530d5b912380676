"""What is there of each bought item: an amount in its own unit, or only plenty, low or out."""

from collections import defaultdict

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.facts.stock import BoughtEntry, BoughtItem
from buildlog.methods import balance
from buildlog.status.on_order import OnOrder, on_order
from buildlog.terms import BoughtAccount, BoughtEntryKind, Level, Moment


@frozen
class BoughtState:
    """``amount`` in the item's unit, None when it is only looked at; then ``level``, None when nobody has looked yet.

    ``correction`` is what the last count corrected. ``on_order`` is what open orders still bring, the first of it
    ``due_at`` (that may have passed).
    """

    bought_item_id: int
    amount: int | None
    level: Level | None
    flagged: str
    correction: balance.Correction | None
    on_order: int
    due_at: Moment | None


_SIGNS = {BoughtEntryKind.RECEIVED: 1, BoughtEntryKind.RETURNED: 1, BoughtEntryKind.DRAWN: -1}


def settle_bought(snapshot: Snapshot, now: Moment) -> dict[int, BoughtState]:
    entries = grouped((e for e in snapshot.bought_entries if e.at <= now), lambda e: e.bought_item_id)
    due: defaultdict[int, list[OnOrder]] = defaultdict(list)
    for line in on_order(snapshot, now):
        if line.bought_item_id is not None:
            due[line.bought_item_id].append(line)
    return {item.id: _settle(item, entries.get(item.id, []), due[item.id], now) for item in snapshot.bought_items}


def _settle(item: BoughtItem, entries: list[BoughtEntry], due: list[OnOrder], now: Moment) -> BoughtState:
    ordered, due_at = sum(line.quantity for line in due), min((line.due_at for line in due), default=None)
    if item.account is BoughtAccount.ROUGH:
        looks = [entry for entry in entries if entry.kind is BoughtEntryKind.LEVEL]
        level = max(looks, key=lambda entry: (entry.at, entry.id)).level if looks else None
        return BoughtState(item.id, None, level, "", None, ordered, due_at)
    moves = [balance.Entry(entry.at, _SIGNS[entry.kind] * entry.amount) for entry in entries if entry.kind in _SIGNS]
    counts = [balance.Reading(e.at, e.amount) for e in entries if e.kind is BoughtEntryKind.COUNTED]
    held = balance.balance(moves, counts, now)
    corrections = balance.corrections(moves, counts)
    flagged = f"{held.amount} {item.unit} by the record: count it" if held.is_negative else ""
    last = corrections[-1] if corrections else None
    return BoughtState(item.id, held.amount, None, flagged, last, ordered, due_at)
