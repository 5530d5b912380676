"""What blocks every position, down to what can be done about it now."""

from collections import defaultdict, deque
from functools import partial
from typing import NamedTuple

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Position
from buildlog.status.accounts import Accounts
from buildlog.status.blocker import Blocker, BlockerKind, Thing
from buildlog.status.blockers_bench import BenchCauses
from buildlog.status.blockers_pieces import PieceCauses
from buildlog.status.blockers_print import printed_causes
from buildlog.status.blockers_questions import open_questions
from buildlog.status.fits import Fits
from buildlog.status.hours import Hours
from buildlog.status.kept import Kept
from buildlog.status.needs import Needs
from buildlog.status.needs_order import groups_of_builds
from buildlog.status.shots import FilmFirst
from buildlog.status.sides import Sides
from buildlog.status.stock import Stock
from buildlog.status.work import WorkDone
from buildlog.terms import Moment


class Link(NamedTuple):
    """One step of a path: down the tree to a position, or over a wait to the position waited for."""

    position_id: int
    by_wait: bool


Path = tuple[Link, ...]


@frozen
class Blockers:
    """``leaves`` by position, each cause once; positions without any are absent. ``beneath`` counts the leaves of a
    position, of all below it, and of what those wait for; 0 means ready. ``minutes_beneath`` are print minutes of the
    slots under a position that are to print or under way, each once. ``children`` are sub-positions in tree order,
    ``waits_for`` the positions that a position waits for.
    """

    leaves: dict[int, tuple[Blocker, ...]]
    beneath: dict[int, int]
    minutes_beneath: dict[int, float]
    children: dict[int, tuple[int, ...]]
    waits_for: dict[int, tuple[int, ...]]

    def is_ready(self, position_id: int) -> bool:
        """Neither it nor a sub-position has a blocker."""
        return not self.beneath.get(position_id)

    def closure(self, position_id: int) -> tuple[tuple[Blocker, Path], ...]:
        """Every leaf that the position is held by, nearest first, each with the shortest way to it (empty: its own).

        A wait is told by what holds that which is waited for.
        """
        found: list[tuple[Blocker, Path]] = []
        seen = {position_id}
        waiting: deque[tuple[int, Path]] = deque([(position_id, ())])
        while waiting:
            place, path = waiting.popleft()
            found += ((leaf, path) for leaf in self.leaves.get(place, ()) if leaf.kind is not BlockerKind.WAIT)
            links = [Link(child, False) for child in self.children.get(place, ())]
            links += [Link(target, True) for target in self.waits_for.get(place, ())]
            for link in links:
                if link.position_id not in seen:
                    seen.add(link.position_id)
                    waiting.append((link.position_id, (*path, link)))
        return tuple(found)


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
    kept: Kept | None = None,
) -> Blockers:
    """The leaf blockers of every live position, those of paused and closed builds too."""
    kept = kept or Kept(snapshot, now)
    ends = {job.job_id: job.ends_at for job in hours.running}
    ends = kept.ask("ends of prints", (), (ends,), lambda: ends)
    printed = printed_causes(snapshot, accounts, needs, hours, stock, kept)
    rests_on = (
        accounts.lots, accounts.bought, accounts.set_up, work, fits, needs, hours.pieces, ends,
        printed, sides,
    )  # fmt: skip

    def find() -> Found:
        film_first = FilmFirst(snapshot, now)
        pieces = PieceCauses(snapshot, now, accounts, work, needs, hours, printed, film_first)
        bench = BenchCauses(snapshot, work, fits, needs, film_first)
        return _Finding(snapshot, needs, pieces, bench, sides).all()

    found = kept.ask("leaves", LEAVES_READ, rests_on, find)
    names = ("order", "beneath", "children", "waits_for")
    order, beneath, children, waits_for = (
        kept.ask(f"{name} of leaves", (), (found,), partial(getattr, found, name)) for name in names
    )
    minutes = kept.ask(
        "minutes beneath",
        (),
        (order, children, hours.position_minutes),
        lambda: _minutes_beneath(order, children, hours.position_minutes),
    )
    told = (found.leaves, beneath, minutes, children, waits_for)
    return kept.ask("blockers", (), told, lambda: Blockers(*told))


def _minutes_beneath(
    order: tuple[int, ...], children: dict[int, tuple[int, ...]], own: dict[int, float]
) -> dict[int, float]:
    minutes: dict[int, float] = {}
    for position_id in reversed(order):
        below = sum(minutes.get(child, 0) for child in children.get(position_id, ()))
        minutes[position_id] = below + own.get(position_id, 0)
    return minutes


LEAVES_READ = (
    "builds", "assemblies", "positions", "parts", "revisions", "usages", "lots", "fittings", "damages", "printers",
    "jobs", "job_lines", "materials", "spools", "steps", "waits", "questions", "question_targets", "fit_tests",
    "shots",
)  # fmt: skip


@frozen
class Found:
    """Leaves with what they are counted over; ``order`` has each position before those below it."""

    order: tuple[int, ...]
    leaves: dict[int, tuple[Blocker, ...]]
    beneath: dict[int, int]
    children: dict[int, tuple[int, ...]]
    waits_for: dict[int, tuple[int, ...]]


class _Finding:
    """Finds leaves from the bottom up; a position waited for is looked at first."""

    def __init__(
        self, snapshot: Snapshot, needs: Needs, pieces: PieceCauses, bench: BenchCauses, sides: Sides
    ) -> None:
        self._snapshot, self._needs, self._pieces, self._bench = snapshot, needs, pieces, bench
        self._other: defaultdict[int, list[Blocker]] = defaultdict(list)
        for position_id, found in open_questions(snapshot, needs).items():
            self._other[position_id] += found
        for pair in sides.pairs:
            if not pair.in_step:
                about = snapshot.assembly[pair.assembly_id]
                more = f" and {len(pair.differences) - 1} more" if len(pair.differences) > 1 else ""
                self._other[pair.above_position_id].append(
                    Blocker(
                        BlockerKind.OUT_OF_STEP,
                        pair.above_position_id,
                        Thing("assembly", about.id, about.name),
                        f"{about.name}: {pair.differences[0]}{more}",
                        len(pair.differences),
                    )
                )
        self._order: list[Position] = []
        children: defaultdict[int, list[int]] = defaultdict(list)
        for groups in groups_of_builds(snapshot, by_rank=False).values():
            for group in groups:
                for position in group.positions:
                    self._order.append(position)
                    if position.parent_id is not None:
                        children[position.parent_id].append(position.id)
        self._children = {parent: tuple(below) for parent, below in children.items()}
        self._leaves: dict[int, tuple[Blocker, ...]] = {}
        self._waits_for: dict[int, tuple[int, ...]] = {}
        self._ready: dict[int, bool] = {}

    def all(self) -> Found:
        for position in reversed(self._order):
            self._is_ready(position.id)
        leaves = {position_id: found for position_id, found in self._leaves.items() if found}
        order = tuple(position.id for position in self._order)
        return Found(order, leaves, self._counts(), self._children, self._waits_for)

    def _is_ready(self, position_id: int) -> bool:
        if position_id in self._ready:
            return self._ready[position_id]
        self._ready[position_id] = False  # stands while it is looked at: who waits for itself is not ready
        subs_ready = all(self._is_ready(child) for child in self._children.get(position_id, ()))
        slots = self._needs.by_position.get(position_id, ())
        found = self._pieces.of_position(position_id, slots)
        if position_id in self._needs.held_positions:
            found = [leaf if leaf.kind is BlockerKind.UNDER_WAY else _left_alone(leaf) for leaf in found]
        position = self._snapshot.position[position_id]
        on_bench, waits_for = self._bench.of_position(position, slots, self._is_ready, subs_ready)
        found += on_bench
        found += self._other.get(position_id, ())
        self._leaves[position_id] = _each_once(found) if len(found) > 1 else tuple(found)
        if waits_for:
            self._waits_for[position_id] = waits_for
        self._ready[position_id] = subs_ready and not found
        return self._ready[position_id]

    def _counts(self) -> dict[int, int]:
        """Leaves beneath each position. Only where something waits are they gathered one by one."""
        counts: dict[int, int] = {}
        waits: dict[int, bool] = {}
        for position in reversed(self._order):
            below = self._children.get(position.id, ())
            counts[position.id] = len(self._leaves[position.id]) + sum(counts[child] for child in below)
            waits[position.id] = position.id in self._waits_for or any(waits[child] for child in below)
        tree_counts = dict(counts)
        for position_id in (position_id for position_id, some in waits.items() if some):
            counts[position_id] = self._gathered(position_id, tree_counts) or tree_counts[position_id]
        return counts

    def _gathered(self, position_id: int, tree_counts: dict[int, int]) -> int:
        """Leaves but waits, over tree and waits, each once."""
        seen = {position_id}
        waiting = [position_id]
        count = 0
        while waiting:
            place = waiting.pop()
            count += sum(leaf.kind is not BlockerKind.WAIT for leaf in self._leaves[place])
            for target in (*self._children.get(place, ()), *self._waits_for.get(place, ())):
                if target not in seen and tree_counts[target]:
                    seen.add(target)
                    waiting.append(target)
        return count


def _each_once(found: list[Blocker]) -> tuple[Blocker, ...]:
    """What several parts are held by in the same words is one cause, of all their slots."""
    if len({leaf.text for leaf in found}) == len(found):  # nearly always, and quicker to tell
        return tuple(found)
    merged: dict[tuple[object, ...], Blocker] = {}
    for leaf in found:
        cause = (leaf.kind, leaf.about, leaf.text, leaf.until)
        if (same := merged.get(cause)) is not None:
            pieces, minutes = same.pieces + leaf.pieces, same.print_minutes + leaf.print_minutes
            leaf = leaf._replace(pieces=pieces, print_minutes=minutes)
        merged[cause] = leaf
    return tuple(merged.values())


def _left_alone(leaf: Blocker) -> Blocker:
    """On a side held on purpose nobody is asked to do anything about it."""
    return leaf if leaf.bench_minutes is None else leaf._replace(bench_minutes=None)
