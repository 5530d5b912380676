"""Whether the material lasts: what is laid against it, when it runs out, when and what to order."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.baskets import Basket
from buildlog.status.burn_down import BurnDown
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.netting import MaterialOutlook, WeekNeed
from buildlog.status.spool_check import SpoolCheck, spool_check
from buildlog.terms import Moment, Side

__all__ = ["Basket", "BurnDown", "MaterialOutlook", "NotCovered", "SpoolCheck", "Stock", "WeekNeed", "lay_material", "spool_check"]


@dataclass(frozen=True, slots=True)
class NotCovered:
    """The first piece of (part, side) that no material is left for: of which material, and when some is due."""

    material_id: int | None
    polymer: str
    reason: str
    due_at: Moment | None


@dataclass(frozen=True)
class Stock:
    """``materials`` by id; ``not_covered`` by (part, side): at least the last ``pieces_not_covered`` slots of it in
    allotment order are blocked. ``one_spool`` by (part, side): the spool that carries its print best in one go.
    ``hours_burn_down`` is of print hours, `material_burn_down` gives that of a material on demand.
    """

    materials: dict[int, MaterialOutlook]
    not_covered: dict[tuple[int, Side], NotCovered]
    blocked_from: dict[tuple[int, Side], int]
    one_spool: dict[tuple[int, Side], SpoolCheck]
    baskets: tuple[Basket, ...]
    hours_burn_down: BurnDown


def lay_material(snapshot: Snapshot, now: Moment, accounts: Accounts, needs: Needs, hours: Hours) -> Stock:
    raise NotImplementedError
