"""What is on each spool: the last reading and what was drawn since, with its ±."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.methods.balance import Correction
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class SpoolState:
    """One spool at ``now``.

    ``net_mg`` may lie below zero (then ``flagged`` says so and asks for a reading); ``pm_mg`` is its ±, ``low_mg`` the
    low end. ``sealed``: never opened, or sealed again. ``wet``: open longer than its material bears, summed since it
    was last dried. ``still_to_draw_mg`` is what running prints will still take. ``correction`` is what the last reading
    corrected (computed and read); all of them: `spool_corrections`. ``usable``: neither empty nor retired.
    """

    spool_id: int
    material_id: int
    net_mg: int
    pm_mg: int
    drawn_since_reading_mg: int
    last_reading_at: Moment | None
    correction: Correction | None
    flagged: str
    opened_at: Moment | None
    sealed: bool
    dried_at: Moment | None
    open_minutes: int
    wet: bool
    empty: bool
    usable: bool
    still_to_draw_mg: int
    tare_assumed: bool
    loaded_on: tuple[int, int] | None = None

    @property
    def low_mg(self) -> int:
        return self.net_mg - self.pm_mg

    @property
    def free_mg(self) -> int:
        """What is left when the running prints are done, never below nothing."""
        return max(0, self.net_mg - self.still_to_draw_mg)


def settle_spools(snapshot: Snapshot, now: Moment) -> dict[int, SpoolState]:
    raise NotImplementedError


def spool_history(snapshot: Snapshot, spool_id: int, now: Moment) -> tuple[tuple[Moment, int], ...]:
    raise NotImplementedError


def spool_corrections(snapshot: Snapshot, spool_id: int, now: Moment) -> tuple[Correction, ...]:
    raise NotImplementedError
