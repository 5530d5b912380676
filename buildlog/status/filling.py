"""Which slots are filled, and by what."""

from buildlog.facts.snapshot import Snapshot
from buildlog.status.slot import ALLOTTED, FILLED, Slot

Fill = tuple[int, int | None]
"""Part and revision, the revision None for a bought one."""


class Filling:
    """A slot is filled by a right piece fitted in it, or allotted where the assembly has no steps; a piece with open
    steps of its own does not fill.
    """

    def __init__(self, snapshot: Snapshot) -> None:
        self._snapshot = snapshot
        self._lots = snapshot.lot
        with_steps = {step.assembly_id for step in snapshot.steps if step.retired_at is None}
        self._by_hand = {usage.id: usage.assembly_id in with_steps for usage in snapshot.usages}

    def is_filled(self, slot: Slot) -> bool:
        if slot.open_steps:
            return False
        if slot.holds is ALLOTTED:
            return slot.stood_in is None and not self._by_hand[slot.usage]
        return slot.holds is FILLED

    def holds_something(self, slot: Slot) -> bool:
        """Right or not, a slot that shows no gap."""
        return slot.fitting is not None or (slot.holds is ALLOTTED and not self._by_hand[slot.usage])

    def fills(self, slot: Slot) -> Fill | None:
        if not self.is_filled(slot):
            return None
        if slot.piece is None:
            return slot.part, None
        lot = self._lots[slot.piece]
        return lot.part_id, lot.revision_id

    def are_alike(self, slot: Slot, other: Slot) -> bool:
        """Whether the pieces in two slots are of one part and revision, standing or lying there."""
        if slot.piece is None or other.piece is None:
            return False
        lot, other_lot = self._lots[slot.piece], self._lots[other.piece]
        return lot.part_id == other_lot.part_id and lot.revision_id == other_lot.revision_id

    def told(self, fill: Fill, part_id: int) -> str:
        """As «B», or «FL09 C (at 80 %)» where it is another part."""
        part = self._snapshot.part[fill[0]]
        letter = self._snapshot.revision[fill[1]].letter if fill[1] is not None else ""
        if part.id == part_id:
            return letter or part.code
        scale = f" (at {part.scale_percent:g} %)" if part.scale_percent else ""
        return f"{part.code} {letter}{scale}".strip()
