"""What can be laid against slots: free pieces, prints under way, bought stock. Taking lessens them."""

from typing import NamedTuple

from buildlog.facts.pieces import Lot
from buildlog.facts.printing import Job
from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts, BoughtState, PieceState
from buildlog.status.old_pieces import OldPieces
from buildlog.status.slot import ALLOTTED, TO_GET, UNDER_WAY, Holds
from buildlog.status.work import WorkDone
from buildlog.terms import Grade, JobState, Level, Moment, Purpose, Side


class Taken(NamedTuple):
    holds: Holds
    piece: int | None = None
    line: int | None = None
    open_steps: bool = False


NOTHING = Taken(TO_GET)
_BOUGHT_ALLOTTED = Taken(ALLOTTED)
_ON_ORDER = Taken(UNDER_WAY)


class Pool:
    """Pieces of one part and side. ``pieces`` and ``seconds`` hold [lot, free, of which finished], ``lines`` [line,
    pieces], each with what is taken first at its end.
    """

    __slots__ = ("lines", "pieces", "seconds")

    def __init__(self) -> None:
        self.pieces: list[list[int]] = []
        self.seconds: list[list[int]] = []
        self.lines: list[list[int]] = []

    def take(self, second_will_do: bool) -> Taken:
        """One piece: a second first where it will do, then pieces, then what prints will make."""
        lots = self.seconds if second_will_do and self.seconds else self.pieces
        if lots:
            lot = lots[-1]
            taken = Taken(ALLOTTED, lot[0], None, lot[2] <= 0)
            lot[2] -= 1
        elif self.lines:
            lots = self.lines
            lot = lots[-1]
            taken = Taken(UNDER_WAY, None, lot[0])
        else:
            return NOTHING
        lot[1] -= 1
        if not lot[1]:
            lots.pop()
        return taken

    def left(self) -> tuple[tuple[int, int], ...]:
        """(lot, pieces) that nobody took, good ones before seconds."""
        return tuple((lot[0], lot[1]) for lots in (self.pieces, self.seconds) for lot in reversed(lots))

    def turn(self) -> None:
        """Put what was laid in first where it is taken first."""
        self.pieces.reverse()
        self.seconds.reverse()
        self.lines.reverse()


class BoughtPool:
    """Stock of one bought item in its unit; a rough one covers all or nothing."""

    __slots__ = ("amount", "on_order")

    def __init__(self, state: BoughtState | None) -> None:
        rough = state is not None and state.level in (Level.PLENTY, Level.LOW)
        self.amount: float = float("inf") if rough else max(0, (state and state.amount) or 0)
        self.on_order = state.on_order if state else 0

    def take(self, quantity: int) -> Taken:
        if self.amount >= quantity:
            self.amount -= quantity
            return _BOUGHT_ALLOTTED
        if self.on_order >= quantity:
            self.on_order -= quantity
            return _ON_ORDER
        return NOTHING


def piece_pools(
    snapshot: Snapshot, accounts: Accounts, work: WorkDone, old: OldPieces
) -> dict[tuple[int, Side], Pool]:
    """By part and side: free pieces whose revision counts, current first, then oldest, and prints under way.

    A salvage piece counts once a joining or rework step on it is ticked: it was made into a whole one.
    """
    pools: dict[tuple[int, Side], Pool] = {}
    later: list[Lot] = []
    with_steps = work.pieces.steps_of
    free = PieceState.FREE
    for lot in _oldest_first(snapshot, [lot for lot in snapshot.lots if accounts.lots[lot.id].state is free]):
        state = accounts.lots[lot.id]
        if (lot.revision_id, lot.side) in old.answers:
            continue
        if lot.grade is Grade.SALVAGE and lot.id not in work.pieces.made_good:
            continue
        if old.current.get(lot.part_id) != lot.revision_id:
            later.append(lot)
            continue
        _lay_in(pools, lot, state.pieces, work.pieces.finished(lot) if lot.part_id in with_steps else state.pieces)
    for lot in later:
        pieces = accounts.lots[lot.id].pieces
        _lay_in(pools, lot, pieces, work.pieces.finished(lot) if lot.part_id in with_steps else pieces)
    _lay_lines(snapshot, pools, old)
    for pool in pools.values():
        pool.turn()
    return pools


def _lay_in(pools: dict[tuple[int, Side], Pool], lot: Lot, free: int, finished: int) -> None:
    pool = pools.get((lot.part_id, lot.side))
    if pool is None:
        pool = pools[lot.part_id, lot.side] = Pool()
    (pool.seconds if lot.grade is Grade.SECOND else pool.pieces).append([lot.id, free, min(free, finished)])


def _oldest_first(snapshot: Snapshot, lots: list[Lot]) -> list[Lot]:
    """By when the piece was made, not when its lot was split off; facts come in order of id, and that stays."""

    def made_at(lot: Lot) -> Moment:
        while lot.parent_id is not None:
            lot = snapshot.lot[lot.parent_id]
        return lot.made_at

    return sorted(lots, key=made_at)


def jobs_under_way(snapshot: Snapshot) -> list[Job]:
    """Running jobs, longest running first, then queued ones in their order, no rank last."""
    jobs = snapshot.jobs_of_state
    running = sorted(jobs.get(JobState.RUNNING, ()), key=lambda job: (job.started_at or job.queued_at, job.id))
    queued = jobs.get(JobState.QUEUED, ())
    return running + sorted(queued, key=lambda job: (job.rank is None, job.rank or 0, job.queued_at, job.id))


def _lay_lines(snapshot: Snapshot, pools: dict[tuple[int, Side], Pool], old: OldPieces) -> None:
    for job in jobs_under_way(snapshot):
        for line in snapshot.lines_of_job.get(job.id, ()):
            pieces = line.quantity - line.scrapped
            if line.purpose is not Purpose.PARTS or line.part_id is None or pieces <= 0:
                continue
            if line.revision_id is None or old.counts(line.revision_id, line.side):
                pools.setdefault((line.part_id, line.side), Pool()).lines.append([line.id, pieces])
