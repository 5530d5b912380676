"""What it costs: to date and to finish."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.stock import Stock
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class Sums:
    """Money in minor units of the ledger's currency."""

    filament_minor: int
    bought_minor: int
    electricity_minor: int

    @property
    def total_minor(self) -> int:
        return self.filament_minor + self.bought_minor + self.electricity_minor


@dataclass(frozen=True, slots=True)
class Cost:
    spent: Sums
    to_finish: Sums


def reckon_cost(
    snapshot: Snapshot, now: Moment, accounts: Accounts, needs: Needs, hours: Hours, stock: Stock
) -> Cost:
    raise NotImplementedError
