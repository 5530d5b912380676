"""What asks for an answer: orders, parcels, accounts that do not add up."""

from dataclasses import dataclass
from enum import StrEnum

from buildlog.facts.snapshot import Snapshot
from buildlog.status.baskets import Basket
from buildlog.status.blocker import Thing
from buildlog.status.stock import Stock
from buildlog.terms import Moment


class AlertLevel(StrEnum):
    ORDER_NOW = "order now"
    LATER = "later"
    LOOK = "look"


@dataclass(frozen=True, slots=True)
class Alert:
    level: AlertLevel
    text: str
    due_at: Moment | None
    basket: Basket | None
    about: Thing | None


def alerts(snapshot: Snapshot, now: Moment, stock: Stock) -> tuple[Alert, ...]:
    raise NotImplementedError
