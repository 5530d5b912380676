"""All that slots can be served from, by part and side, and bought stock by item."""

from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts
from buildlog.status.old_pieces import OldPieces
from buildlog.status.pools import NOTHING, BoughtPool, Pool, Taken, piece_pools
from buildlog.status.slot import TO_GET
from buildlog.status.work import WorkDone
from buildlog.terms import Side


class Shelf:
    """Taking lessens what is there."""

    def __init__(self, snapshot: Snapshot, accounts: Accounts, work: WorkDone, old: OldPieces) -> None:
        self.pieces: dict[tuple[int, Side], Pool] = piece_pools(snapshot, accounts, work, old)
        items = {item.id: BoughtPool(accounts.bought.get(item.id)) for item in snapshot.bought_items}
        self._bought = {
            part.id: (items[part.bought_item_id], part.bought_quantity or 1)
            for part in snapshot.parts
            if part.bought_item_id is not None
        }

    def take(self, part_id: int, side: Side, second_will_do: bool) -> Taken:
        bought = self._bought.get(part_id)
        if bought is not None:
            item, quantity = bought
            return item.take(quantity)
        pool = self.pieces.get((part_id, side))
        return NOTHING if pool is None else pool.take(second_will_do)

    def spare(self, part_id: int, side: Side, wanted: int) -> int:
        """How many of the spares wanted are there or under way, when no slot takes any more."""
        if part_id in self._bought:
            return sum(self.take(part_id, side, False).holds is not TO_GET for _ in range(wanted))
        pool = self.pieces.get((part_id, side))
        if pool is None:
            return 0
        return min(wanted, sum(lot[1] for lots in (pool.pieces, pool.lines) for lot in lots))
