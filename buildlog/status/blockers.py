"""What blocks every position, down to what can be done about it now."""

from dataclasses import dataclass
from typing import NamedTuple

from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.blocker import Blocker
from buildlog.status.fits import Fits
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.sides import Sides
from buildlog.status.stock import Stock
from buildlog.status.work import WorkDone
from buildlog.terms import Moment


class Link(NamedTuple):
    """One step of a path: down the tree to a position, or over a wait to the position waited for."""

    position_id: int
    by_wait: bool


@dataclass(frozen=True, slots=True)
class Blockers:
    """``leaves`` by position, each cause once; positions without any are absent. ``beneath`` counts the leaves of a
    position and all below it, and of what those wait for; 0 means ready. ``minutes_beneath`` are print minutes of the
    slots under a position that are to print or under way, each once.
    """

    leaves: dict[int, tuple[Blocker, ...]]
    beneath: dict[int, int]
    minutes_beneath: dict[int, int]
    children: dict[int, tuple[int, ...]]
    waits_for: dict[int, tuple[int, ...]]

    def is_ready(self, position_id: int) -> bool:
        """Neither it nor a sub-position has a blocker."""
        return not self.beneath.get(position_id)

    def closure(self, position_id: int) -> tuple[tuple[Blocker, tuple[Link, ...]], ...]:
        """Every leaf that the position is held by, nearest first, each with the shortest way to it (empty: its own)."""
        raise NotImplementedError


def find_blockers(
    snapshot: Snapshot,
    now: Moment,
    accounts: Accounts,
    work: WorkDone,
    fits: Fits,
    needs: Needs,
    hours: Hours,
    stock: Stock,
    sides: Sides,
) -> Blockers:
    """The leaf blockers of every position of the open builds."""
    raise NotImplementedError
