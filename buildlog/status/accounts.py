"""The accounts of spools, lots and bought items and the set-up of printers, as they stand at one moment."""

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.status.bought_account import BoughtState, settle_bought
from buildlog.status.kept import Kept
from buildlog.status.lot_account import LotState, PieceState, settle_lots
from buildlog.status.on_printers import where_loaded
from buildlog.status.set_up import SetUpState, settle_set_ups
from buildlog.status.spool_account import SpoolState, settle_spools, spool_corrections, spool_history
from buildlog.terms import Moment

__all__ = [
    "Accounts",
    "BoughtState",
    "LotState",
    "PieceState",
    "SetUpState",
    "SpoolState",
    "settle",
    "spool_corrections",
    "spool_history",
]


@frozen
class Accounts:
    """Each by the id of its row, retired ones too; ``set_up`` by printer."""

    spools: dict[int, SpoolState]
    lots: dict[int, LotState]
    bought: dict[int, BoughtState]
    set_up: dict[int, SetUpState]


def settle(snapshot: Snapshot, now: Moment, kept: Kept | None = None) -> Accounts:
    """Every account at ``now``: the last reading at or before it plus the entries after."""
    kept = kept or Kept(snapshot, now)
    set_up = kept.ask("set-ups", ("printers", "set_ups"), (), lambda: settle_set_ups(snapshot, now))
    spools = kept.ask(
        "spools", SPOOLS_READ, (set_up,), lambda: where_loaded(settle_spools(snapshot, now), set_up), moves=True
    )
    lots = kept.ask("lots", ("lots", "lot_entries"), (), lambda: settle_lots(snapshot, now))
    bought = kept.ask("bought", BOUGHT_READ, (), lambda: settle_bought(snapshot, now))
    return Accounts(spools, lots, bought, set_up)


SPOOLS_READ = ("spools", "spool_entries", "feeds", "jobs", "materials")
BOUGHT_READ = ("bought_items", "bought_entries", "orders", "order_lines", "spools")
