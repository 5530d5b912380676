"""Blockers of slots that no piece fills: what is under way, to print, to buy, to make, missing, held."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator

from buildlog.facts.naming import part_name
from buildlog.facts.snapshot import Snapshot
from buildlog.status import bench_minutes
from buildlog.status.accounts import Accounts, PieceState
from buildlog.status.blocker import Blocker, BlockerKind, Thing
from buildlog.status.blockers_print import Place, idle_printers, start_minutes_of
from buildlog.status.blockers_stand import StandCauses
from buildlog.status.filling import Filling
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.pools import jobs_under_way
from buildlog.status.shots import FilmFirst
from buildlog.status.slot import ALLOTTED, FILLED, TO_GET, UNDER_WAY, Holds, Slot
from buildlog.status.work import WorkDone
from buildlog.terms import JobState, Moment, Origin, Side, Stage

Key = tuple[int, Side]


class PieceCauses:
    """Answers for one moment, position by position."""

    def __init__(
        self,
        snapshot: Snapshot,
        now: Moment,
        accounts: Accounts,
        work: WorkDone,
        needs: Needs,
        hours: Hours,
        printed: dict[Place, tuple[Blocker, ...]],
        film_first: FilmFirst,
    ) -> None:
        self._snapshot, self._accounts, self._work = snapshot, accounts, work
        self._needs, self._hours, self._film_first = needs, hours, film_first
        self._filling = Filling(snapshot)
        self._stands = StandCauses(snapshot, now, needs)
        self._printed, self._idle = printed, idle_printers(snapshot, accounts)
        lines_of = snapshot.lines_of_job
        self._job_of_line = {line.id: job for job in jobs_under_way(snapshot) for line in lines_of.get(job.id, ())}
        self._ends = {running.job_id: running.ends_at for running in hours.running}
        self._missing, self._broken = self._lost_pieces()

    def _lost_pieces(self) -> tuple[dict[tuple[int, int, Side], int], dict[tuple[int, int, Side], int]]:
        """Slots to get that pieces missing would fill, in order, and those that pieces out of use would fill."""
        missing: Counter[Key] = Counter()
        broken: Counter[Key] = Counter()
        for told in self._accounts.lots.values():
            if not told.missing and told.state is not _OUT_OF_USE:
                continue
            lot = self._snapshot.lot[told.lot_id]
            if self._needs.old.counts(lot.revision_id, lot.side):
                missing[lot.part_id, lot.side] += told.missing
                broken[lot.part_id, lot.side] += told.pieces if told.state is _OUT_OF_USE else 0
        return self._slots_lost(missing), self._slots_lost(broken)

    def _slots_lost(self, left: Counter[Key]) -> dict[tuple[int, int, Side], int]:
        """By position, part and side."""
        lost: Counter[tuple[int, int, Side]] = Counter()
        for slot in self._needs.slots if left else ():
            if slot.holds is TO_GET and left.get((slot.part, slot.side)):
                left[slot.part, slot.side] -= 1
                lost[slot.position, slot.part, slot.side] += 1
        return lost

    def of_position(self, position_id: int, slots: Iterable[Slot]) -> list[Blocker]:
        """Each cause once; slots of a position on a held side that are to get are left to the one *held*."""
        found: list[Blocker] = self._stands.without_slot(position_id)
        alike: defaultdict[tuple[Holds, bool, int, Side, int], list[Slot]] = defaultdict(list)
        for slot in slots:
            _, _, _, part_id, side, holds, _, _, _, line, stood_in, held, open_steps = slot
            if stood_in is not None:
                found.append(self._stands.of_slot(slot))
            if held or (holds is FILLED and not open_steps):
                continue
            job_id = self._job_of_line[line].id if line is not None else 0
            alike[holds, open_steps, part_id, side, job_id].append(slot)
        for (holds, open_steps, part_id, side, job_id), same in alike.items():
            key = (part_id, side)
            if open_steps:
                found += self._open_steps(position_id, key, same)
            elif holds is ALLOTTED:
                found += self._to_fit(position_id, key, same)
            elif holds is UNDER_WAY:
                found.append(self._under_way(position_id, key, job_id, len(same)))
            else:
                found += self._to_get(position_id, key, len(same))
        return found

    def _name(self, key: Key) -> str:
        return part_name(self._snapshot, *key)

    def _thing(self, key: Key) -> Thing:
        return Thing("part", key[0], self._name(key))

    def _open_steps(self, position_id: int, key: Key, same: list[Slot]) -> Iterator[Blocker]:
        """One blocker per step that is open on any of the pieces."""
        pieces: Counter[int] = Counter()
        lots = Counter(slot.piece for slot in same if slot.piece is not None)
        for lot_id, taken in lots.items():
            done = self._work.pieces.done.get(lot_id, {})
            held = self._accounts.lots[lot_id].pieces
            for step in self._work.pieces.steps_of.get(key[0], ()):
                pieces[step.id] += min(taken, max(0, held - done.get(step.id, 0)))
        for step in self._work.pieces.steps_of.get(key[0], ()):
            count = pieces[step.id]
            to_film = tuple(self._film_first.before(step, position_id, key[1], count)) if count else ()
            yield from to_film
            if count and not to_film:
                yield Blocker(
                    BlockerKind.STEP_OPEN,
                    position_id,
                    Thing("step", step.id, step.name),
                    f"{step.name}: {count} × {self._name(key)}",
                    count,
                    bench_minutes=step.bench_minutes * count,
                )

    def _to_fit(self, position_id: int, key: Key, same: list[Slot]) -> Iterator[Blocker]:
        """Pieces that lie there: the step that puts them in place is the blocker, unless all are done already."""
        empty = [slot for slot in same if slot.stood_in is None]
        if not empty or self._filling.is_filled(empty[0]):
            return
        done = self._work.by_position.get(position_id)
        if done is None or done.next_step is None:
            yield Blocker(
                BlockerKind.STEP_OPEN,
                position_id,
                self._thing(key),
                f"put in place: {len(empty)} × {self._name(key)}",
                len(empty),
                bench_minutes=bench_minutes.PUT_IN_PLACE * len(empty),
            )

    def _under_way(self, position_id: int, key: Key, job_id: int, count: int) -> Blocker:
        part = self._snapshot.part[key[0]]
        if part.bought_item_id is not None:
            due_at = self._accounts.bought[part.bought_item_id].due_at
            thing = Thing("bought item", part.bought_item_id, part.code)
            return Blocker(BlockerKind.ON_ORDER, position_id, thing, f"{count} × {part.code} on order", count, due_at)
        job = self._snapshot.job[job_id]
        piece = self._hours.pieces.get(key)
        minutes = piece.expected_minutes * count if piece else 0
        thing = Thing("print", job.id, job.name or self._name(key))
        if job.state is JobState.RUNNING:
            text = f"{count} × {self._name(key)} printing"
            return Blocker(BlockerKind.UNDER_WAY, position_id, thing, text, count, self._ends.get(job.id), minutes)
        return Blocker(
            BlockerKind.UNDER_WAY,
            position_id,
            thing,
            f"{count} × {self._name(key)} queued",
            count,
            print_minutes=minutes,
            bench_minutes=start_minutes_of(job, self._idle),
        )

    def _to_get(self, position_id: int, key: Key, count: int) -> tuple[Blocker, ...]:
        place = (position_id, *key)
        told = self._unprinted(position_id, key, count) or self._printed[place]
        return (*self._lost_ones(place), *told) if place in self._missing or place in self._broken else told

    def _unprinted(self, position_id: int, key: Key, count: int) -> tuple[Blocker, ...]:
        """Of a part that is bought, not drawn yet or made by hand; nothing of one to print."""
        part = self._snapshot.part[key[0]]
        if part.bought_item_id is not None:
            item = Thing("bought item", part.bought_item_id, part.code)
            return (Blocker(BlockerKind.BOUGHT_SHORT, position_id, item, f"{count} × {part.code} to buy", count),)
        if part.stage is _IDEA or part.id not in self._needs.old.current:
            text, minutes = f"{part.code} is not drawn yet", bench_minutes.DESIGN
            thing = self._thing(key)
            return (Blocker(BlockerKind.NOT_DRAWN, position_id, thing, text, count, bench_minutes=minutes),)
        if part.origin is _MADE:
            revision = self._snapshot.revision[self._needs.old.current[part.id]]
            each = revision.hand_minutes if revision.hand_minutes is not None else bench_minutes.MAKE_BY_HAND
            thing = self._thing(key)
            text = f"{count} × {thing.name} to make by hand"
            return (Blocker(BlockerKind.MAKE_BY_HAND, position_id, thing, text, count, bench_minutes=each * count),)
        return ()

    def _lost_ones(self, place: Place) -> Iterator[Blocker]:
        position_id, part_id, side = place
        thing = self._thing((part_id, side))
        if missing := self._missing.get(place, 0):
            minutes = bench_minutes.LOOK_FOR_PIECE
            text = f"{missing} × {thing.name} missing: look for it"
            yield Blocker(BlockerKind.MISSING, position_id, thing, text, missing, bench_minutes=minutes)
        if broken := self._broken.get(place, 0):
            minutes = bench_minutes.REPAIR * broken
            text = f"{broken} × {thing.name} out of use: repair it"
            yield Blocker(BlockerKind.DAMAGED, position_id, thing, text, broken, bench_minutes=minutes)


_IDEA, _MADE, _OUT_OF_USE = Stage.IDEA, Origin.MADE, PieceState.OUT_OF_USE
