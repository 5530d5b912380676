"""Planned-requirements netting, week by week: what must come in, and when it must be ordered.

For each week: on hand before = on hand of the week before + scheduled receipts − gross requirements; net
requirement = what is missing to the safety stock; planned receipt = whole packs that cover it; the release of
that receipt lies `lead_weeks` earlier. Source: textbook record of material requirements planning, from
memory. Amounts are whole units (milligrams, pieces).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import NamedTuple


@dataclass(frozen=True, slots=True)
class Supply:
    on_hand: int
    safety_stock: int = 0
    pack_size: int = 1
    lead_weeks: int = 0

    def __post_init__(self) -> None:
        if self.pack_size < 1:
            raise ValueError(f"a pack holds at least 1, not {self.pack_size}")
        if self.lead_weeks < 0 or self.safety_stock < 0:
            raise ValueError("lead time and safety stock cannot be below 0")


class PlannedWeek(NamedTuple):
    """One column of the record; `on_hand` is projected to the end of the week, planned receipt included."""

    gross: int
    scheduled: int
    on_hand: int
    net: int
    planned_receipt: int
    planned_release: int


class Plan(NamedTuple):
    """`past_due_release` should have gone out before the first week: order it now, it comes late."""

    weeks: tuple[PlannedWeek, ...]
    past_due_release: int


def plan(gross: Sequence[int], scheduled: Sequence[int], supply: Supply) -> Plan:
    """Net the gross requirements of each week against stock and scheduled receipts of the same weeks."""
    if len(gross) != len(scheduled):
        raise ValueError(f"{len(gross)} weeks of requirements do not meet {len(scheduled)} weeks of receipts")
    netted = _netted(gross, scheduled, supply)
    receipts = [receipt for _, _, receipt in netted]
    releases = receipts[supply.lead_weeks :] + [0] * min(supply.lead_weeks, len(receipts))
    weeks = tuple(
        PlannedWeek(required, arriving, on_hand, net, receipt, release)
        for required, arriving, (on_hand, net, receipt), release in zip(
            gross, scheduled, netted, releases, strict=True
        )
    )
    return Plan(weeks, sum(receipts[: supply.lead_weeks]))


def _netted(gross: Sequence[int], scheduled: Sequence[int], supply: Supply) -> list[tuple[int, int, int]]:
    """On hand at the end, net requirement and planned receipt of each week."""
    on_hand = supply.on_hand
    netted: list[tuple[int, int, int]] = []
    for required, arriving in zip(gross, scheduled, strict=True):
        before = on_hand + arriving - required
        net = max(0, supply.safety_stock - before)
        receipt = -(-net // supply.pack_size) * supply.pack_size
        on_hand = before + receipt
        netted.append((on_hand, net, receipt))
    return netted


def order_by(need: date, lead_days: int, cutoff_weekday: int | None = None) -> date:
    """The last day on which an order still arrives by `need`.

    `lead_days` are calendar days. A supplier that sends orders off on one weekday only (Monday 0 … Sunday 6)
    takes them up to that day; the lead time counts from there.
    """
    if lead_days < 0:
        raise ValueError(f"a lead time cannot be below 0 days, not {lead_days}")
    latest = need - timedelta(days=lead_days)
    if cutoff_weekday is None:
        return latest
    if not 0 <= cutoff_weekday <= 6:
        raise ValueError(f"a weekday is 0 for Monday to 6 for Sunday, not {cutoff_weekday}")
    return latest - timedelta(days=(latest.weekday() - cutoff_weekday) % 7)
