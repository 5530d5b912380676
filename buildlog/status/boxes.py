"""What lies in each box, what is away, what is damaged, and which spares are wanted."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from buildlog.facts.default_boxes import default_boxes
from buildlog.facts.pieces import Damage, Lot, LotEntry
from buildlog.facts.snapshot import Snapshot
from buildlog.methods.piece_account import Pieces
from buildlog.status.lot_account import entries_by_lot, pieces_of
from buildlog.status.status import Status
from buildlog.terms import BoughtEntryKind, LotEntryKind, Moment, SpoolEntryKind, StepKind


@dataclass(frozen=True, slots=True)
class Lying:
    """So many pieces of a lot in a box by the book; ``by_default`` where no one has put them anywhere."""

    lot: Lot
    pieces: int
    by_default: bool


@dataclass(frozen=True, slots=True)
class Contents:
    """What a box holds: pieces, spools and bought items by id."""

    lots: tuple[Lying, ...] = ()
    spool_ids: tuple[int, ...] = ()
    item_ids: tuple[int, ...] = ()

    @property
    def pieces(self) -> int:
        return sum(lying.pieces for lying in self.lots)


@dataclass(frozen=True, slots=True)
class Away:
    """Pieces that are missing or lent since a moment; ``told`` says who has them."""

    lot: Lot
    pieces: int
    since: Moment
    told: str


@dataclass(frozen=True, slots=True)
class Boxes:
    """``of`` by id of the box, None for what lies in none. ``spares`` are (part, side, wanted, still to get)."""

    of: dict[int | None, Contents]
    missing: tuple[Away, ...]
    lent: tuple[Away, ...]
    damaged: tuple[tuple[Lot, Damage], ...]
    spares: tuple[tuple[int, str, int, int], ...]
    used_in_repairs: tuple[tuple[int, int], ...]


def lay_boxes(status: Status) -> Boxes:
    """As things stand at the moment of the status; boxes in use that hold nothing are among ``of``."""
    snapshot, now = status.snapshot, status.now
    entries = entries_by_lot(snapshot, now)
    held = _held(snapshot, entries, now)
    return Boxes(
        _contents(status, held),
        tuple(_away(snapshot, entries, held, LotEntryKind.MISSING)),
        tuple(_away(snapshot, entries, held, LotEntryKind.LENT)),
        tuple(_damaged(snapshot, now)),
        tuple(
            (need.part_id, need.side.value, need.spares_wanted, need.spares_to_get)
            for need in status.needs.by_part.values()
            if need.spares_wanted
        ),
        tuple(_used_in_repairs(snapshot, now)),
    )


def _held(snapshot: Snapshot, entries: dict[int, list[LotEntry]], now: Moment) -> dict[int, Pieces]:
    """Where the pieces of each lot are. Most have no entry, or were fitted by one: those need no replay."""
    fitted = cache(lambda quantity, pieces: Pieces(box=quantity - pieces, fitted=pieces))
    held = {}
    for lot in snapshot.lots:
        if lot.made_at <= now:
            own = entries.get(lot.id)
            if own is None:
                held[lot.id] = fitted(lot.quantity, 0)
            elif len(own) == 1 and own[0].kind is LotEntryKind.FITTED:
                held[lot.id] = fitted(lot.quantity, own[0].pieces)
            else:
                held[lot.id] = pieces_of(lot, own, now)
    return held


def _contents(status: Status, held: dict[int, Pieces]) -> dict[int | None, Contents]:
    snapshot = status.snapshot
    usual = default_boxes(snapshot.assemblies, snapshot.usages)
    lots: defaultdict[int | None, list[Lying]] = defaultdict(list)
    for lot in snapshot.lots:
        pieces = held[lot.id].box if lot.id in held else 0
        if pieces > 0:
            box_id = status.accounts.lots[lot.id].box_id
            default_id = usual.get(lot.part_id) if box_id is None else None
            lots[box_id or default_id].append(Lying(lot, pieces, default_id is not None))
    spools: defaultdict[int | None, list[int]] = defaultdict(list)
    empty = {entry.spool_id for entry in snapshot.spool_entries if entry.kind is SpoolEntryKind.EMPTIED}
    for spool in snapshot.spools:
        loaded = status.accounts.spools[spool.id].loaded_on is not None
        if spool.retired_at is None and spool.id not in empty and not loaded:
            spools[spool.box_id].append(spool.id)
    items: defaultdict[int | None, list[int]] = defaultdict(list)
    for item in snapshot.bought_items:
        if item.retired_at is None:
            items[item.box_id].append(item.id)
    known: list[int | None] = [box.id for box in snapshot.boxes if box.retired_at is None]
    ids = [*known, *(i for i in (*lots, *spools, *items) if i not in known)]
    return {
        i: Contents(tuple(lots.get(i, ())), tuple(spools.get(i, ())), tuple(items.get(i, ())))
        for i in dict.fromkeys(ids)
    }


def _away(
    snapshot: Snapshot, entries: dict[int, list[LotEntry]], held: dict[int, Pieces], kind: LotEntryKind
) -> Iterator[Away]:
    for lot_id, pieces in held.items():
        count = pieces.missing if kind is LotEntryKind.MISSING else pieces.lent
        if count > 0:
            lot = snapshot.lot[lot_id]
            wanted = (kind, LotEntryKind.COUNTED) if kind is LotEntryKind.MISSING else (kind,)
            told = [entry for entry in entries.get(lot.id, ()) if entry.kind in wanted]
            last = max(told, key=lambda entry: (entry.at, entry.id))
            yield Away(lot, count, last.at, last.cause)


def _damaged(snapshot: Snapshot, now: Moment) -> Iterator[tuple[Lot, Damage]]:
    """Damages that are not repaired, of lots that are not gone."""
    scrapped = {entry.lot_id for entry in snapshot.lot_entries if entry.kind is LotEntryKind.SCRAPPED}
    for damage in snapshot.damages:
        is_open = damage.at <= now and (damage.repaired_at is None or damage.repaired_at > now)
        if is_open and damage.lot_id not in scrapped:
            yield snapshot.lot[damage.lot_id], damage


def _used_in_repairs(snapshot: Snapshot, now: Moment) -> Iterator[tuple[int, int]]:
    """(bought item, amount) drawn by steps of rework so far, and by hand for what is called a repair."""
    rework = {step.id for step in snapshot.steps if step.kind is StepKind.REWORK}
    ticks = {done.id for done in snapshot.steps_done if done.step_id in rework}
    used: defaultdict[int, int] = defaultdict(int)
    for entry in snapshot.bought_entries:
        for_repair = entry.step_done_id in ticks or "repair" in entry.cause.casefold()
        if for_repair and entry.kind is BoughtEntryKind.DRAWN and entry.at <= now:
            used[entry.bought_item_id] += entry.amount
    steps_use = {use.bought_item_id for use in snapshot.step_uses if use.step_id in rework}
    for item_id in sorted({*used, *steps_use}):
        yield item_id, used[item_id]
