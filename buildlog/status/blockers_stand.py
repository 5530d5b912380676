"""Blockers of what stands where it should not, or stands there for the time being."""

from functools import cached_property

from buildlog.facts.naming import part_name
from buildlog.facts.pieces import Fitting
from buildlog.facts.snapshot import Snapshot
from buildlog.status import bench_minutes
from buildlog.status.blocker import Blocker, BlockerKind, Thing
from buildlog.status.needs import Needs
from buildlog.status.slot import Holds, Slot
from buildlog.status.standing import broken_lots
from buildlog.terms import Moment, OldGoodFor


class StandCauses:
    def __init__(self, snapshot: Snapshot, now: Moment, needs: Needs) -> None:
        self._snapshot, self._now, self._old = snapshot, now, needs.old
        self._lots = snapshot.lot
        self._broken = broken_lots(snapshot, now)
        self._slotless: dict[int, list[Fitting]] = {}
        for fitting_id in needs.take_out:
            fitting = self._fittings[fitting_id]
            self._slotless.setdefault(fitting.position_id, []).append(fitting)

    @cached_property
    def _fittings(self) -> dict[int, Fitting]:
        return {fitting.id: fitting for fitting in self._snapshot.fittings}

    def positions(self) -> set[int]:
        """Positions that hold something whose slot is no more."""
        return set(self._slotless)

    def without_slot(self, position_id: int) -> list[Blocker]:
        return [
            Blocker(
                BlockerKind.TAKE_OUT,
                position_id,
                self._thing(fitting),
                f"take out {self._name(fitting)}: its slot is no more",
                1,
                bench_minutes=bench_minutes.TAKE_OUT,
            )
            for fitting in self._slotless.get(position_id, ())
        ]

    def of_slot(self, slot: Slot) -> Blocker:
        """Of what stands in a slot and does not fill it; once the right piece lies there, a person can replace it."""
        fitting = self._fittings[slot.stood_in or 0]
        kind, text = self._judged(fitting, slot)
        minutes: int | None = bench_minutes.PUT_IN_PLACE if slot.holds is Holds.ALLOTTED else None
        if kind is BlockerKind.DAMAGED:
            minutes = bench_minutes.REPAIR
        elif kind in (BlockerKind.TAKE_OUT, BlockerKind.CONFLICT):
            minutes = bench_minutes.TAKE_OUT
        return Blocker(kind, slot.position, self._thing(fitting), text, 1, bench_minutes=minutes)

    def _judged(self, fitting: Fitting, slot: Slot) -> tuple[BlockerKind, str]:
        name, code = self._name(fitting), self._snapshot.part[slot.part].code
        remade_at = self._snapshot.position[slot.position].remade_at
        if remade_at is not None and fitting.from_at < remade_at <= self._now:
            return BlockerKind.STAND_IN, f"{name} is of before it was made anew"
        if fitting.lot_id in self._broken:
            return BlockerKind.DAMAGED, f"{name} is out of use: repair or replace it"
        lot = self._lots.get(fitting.lot_id) if fitting.lot_id is not None else None
        if lot is None or fitting.stand_in or lot.part_id != slot.part:
            return BlockerKind.STAND_IN, f"{name} stands in for {code}"
        if lot.side is not slot.side:
            return BlockerKind.CONFLICT, f"{name} stands where {code} {slot.side} belongs"
        letter, now = (self._letter(i) for i in (lot.revision_id, self._old.current[slot.part]))
        if self._old.answers.get((lot.revision_id, lot.side)) is OldGoodFor.NO_GOOD:
            return BlockerKind.TAKE_OUT, f"take out {name}: its revision {letter} is no good any more"
        piece = f"piece {name}" if lot.mark else name
        return BlockerKind.STAND_IN, f"{piece} (revision {letter}) stands in for {code} (revision {now})"

    def _letter(self, revision_id: int) -> str:
        return self._snapshot.revision[revision_id].letter

    def _name(self, fitting: Fitting) -> str:
        if fitting.lot_id is None:
            return fitting.what or "the bought part"
        lot = self._lots[fitting.lot_id]
        return lot.mark or part_name(self._snapshot, lot.part_id, lot.side)

    def _thing(self, fitting: Fitting) -> Thing:
        return Thing("fitting", fitting.id, self._name(fitting))
