"""The accounts of spools, lots and bought items and the set-up of printers, as they stand at one moment."""

from dataclasses import dataclass, replace

from buildlog.facts.snapshot import Snapshot
from buildlog.status.bought_account import BoughtState, settle_bought
from buildlog.status.lot_account import LotState, PieceState, settle_lots
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


@dataclass(frozen=True, slots=True)
class Accounts:
    """Each by the id of its row, retired ones too; ``set_up`` by printer."""

    spools: dict[int, SpoolState]
    lots: dict[int, LotState]
    bought: dict[int, BoughtState]
    set_up: dict[int, SetUpState]


def settle(snapshot: Snapshot, now: Moment) -> Accounts:
    """Every account at ``now``: the last reading at or before it plus the entries after."""
    set_up = settle_set_ups(snapshot, now)
    spools = settle_spools(snapshot, now)
    for printer_id, state in set_up.items():
        for head, spool_id in state.loaded.items():
            spools[spool_id] = replace(spools[spool_id], loaded_on=(printer_id, head))
    return Accounts(spools, settle_lots(snapshot, now), settle_bought(snapshot, now), set_up)
