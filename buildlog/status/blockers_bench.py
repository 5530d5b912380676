"""Blockers of bench work: the next step, what is to be filmed before it, cures, jigs, fits, waits, what is held."""

from collections.abc import Callable, Iterator

from buildlog.facts.bench import Wait
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.facts.tree import Position
from buildlog.facts.waited_for import waited_for
from buildlog.status.blocker import Blocker, BlockerKind, Thing
from buildlog.status.fits import Fits, FitState, Verdict
from buildlog.status.needs import Needs
from buildlog.status.shots import FilmFirst
from buildlog.status.slot import ALLOTTED, FILLED, Slot
from buildlog.status.work import WorkDone
from buildlog.terms import Side

IsReady = Callable[[int], bool]


class BenchCauses:
    """Answers for one moment, position by position; whether others are ready is asked for as it is needed."""

    def __init__(self, snapshot: Snapshot, work: WorkDone, fits: Fits, needs: Needs, film_first: FilmFirst) -> None:
        self._snapshot, self._work, self._fits, self._needs = snapshot, work, fits, needs
        self._film_first = film_first
        self._tests = {test.id: test for test in snapshot.fit_tests}
        self._steps = {step.id: step for step in snapshot.steps}
        self._waits = grouped((w for w in snapshot.waits if w.retired_at is None), lambda w: w.assembly_id)

    def of_position(
        self, position: Position, slots: tuple[Slot, ...], is_ready: IsReady, subs_ready: bool
    ) -> tuple[list[Blocker], tuple[int, ...]]:
        """Blockers, and the positions that it waits for."""
        waits = list(self._unmet(position, is_ready))
        waited_for = tuple(target.id for _, targets in waits for target in targets)
        found = [self._wait(position, wait) for wait, _ in waits]
        if position.id in self._needs.held_positions:
            return found + self._held_side(position, slots), waited_for
        found += self._held_parts(position, slots)
        held_steps = {wait.step_id for wait, _ in waits}
        found += self._step(position, slots, subs_ready, held_steps)
        for state in self._fits.by_position.get(position.id, ()):
            found += self._fit(position, state)
        return found, waited_for

    def _held_side(self, position: Position, slots: tuple[Slot, ...]) -> list[Blocker]:
        """One for a position on a held side that is not complete: names the lead side's fit."""
        waiting = sum(slot.held for slot in slots)
        done = self._work.by_position.get(position.id)
        fits_open = any(not state.verdict.holds for state in self._fits.by_position.get(position.id, ()))
        if not waiting and (done is None or done.next_step is None) and not fits_open:
            return []
        lead = self._snapshot.assembly[self._needs.held_positions[position.id]]
        test = self._tests[lead.lead_test_id or 0]
        text = f"held until {lead.code} {lead.lead_side} has passed «{test.name}»"
        about = Thing("fit test", test.id, test.name)
        return [Blocker(BlockerKind.HELD, position.id, about, text, waiting)]

    def _held_parts(self, position: Position, slots: tuple[Slot, ...]) -> Iterator[Blocker]:
        counts: dict[int, int] = {}
        for slot in slots:
            if slot.held:
                counts[slot.part] = counts.get(slot.part, 0) + 1
        for part_id, count in counts.items():
            part = self._snapshot.part[part_id]
            text = f"{count} × {part.code} held until it is proven on the {_WORD[part.lead_side or Side.NONE]}"
            yield Blocker(BlockerKind.HELD, position.id, Thing("part", part.id, part.code), text, count)

    def _step(
        self, position: Position, slots: tuple[Slot, ...], subs_ready: bool, held_steps: set[int | None]
    ) -> Iterator[Blocker]:
        done = self._work.by_position.get(position.id)
        if done is None:
            return
        step = done.next_step
        if done.handle_until is not None:
            about = Thing("step", step.id, step.name) if step else self._thing(position.assembly_id)
            yield Blocker(BlockerKind.CURING, position.id, about, "curing", until=done.handle_until)
            return
        if step is None or step.id in held_steps:
            return
        owed = self._work.steps_in[position.id]
        is_first_joint = step.kind.holds_slots and next(s for s in owed if s.kind.holds_slots).id == step.id
        if is_first_joint and not (subs_ready and all(map(self._is_held, slots))):
            return
        to_film = tuple(self._film_first.before(step, position.id, position.side))
        if to_film:
            yield from to_film
            return
        about = Thing("step", step.id, step.name)
        taken = self._work.jigs_taken.get(step.jig_id) if step.jig_id is not None else None
        if taken is not None:
            text = f"{step.name}: its jig is taken"
            yield Blocker(BlockerKind.JIG_TAKEN, position.id, about, text, until=taken)
        else:
            yield Blocker(BlockerKind.STEP_OPEN, position.id, about, step.name, bench_minutes=step.bench_minutes)

    def _is_held(self, slot: Slot) -> bool:
        """Whether something stands in a slot, or a finished piece lies there for it."""
        return slot.stood_in is not None or (slot.holds in _THERE and not slot.open_steps)

    def _fit(self, position: Position, state: FitState) -> Iterator[Blocker]:
        test = self._tests[state.test_id]
        kind = _FIT_KINDS.get(state.verdict)
        if kind is None:
            return
        about = Thing("fit test", test.id, test.name)
        if state.load_until is not None and kind is not BlockerKind.FIT_FAILED:
            text = f"{test.name}: nothing may carry yet"
            yield Blocker(BlockerKind.CURING, position.id, about, text, until=state.load_until)
            return
        # a failed one is tested again when what was to be done about it is done: that is work of its own
        is_test = kind is BlockerKind.FIT_DUE or (kind is BlockerKind.FIT_STALE and state.can_test)
        minutes = test.bench_minutes if is_test else None
        yield Blocker(kind, position.id, about, f"{test.name}: {state.why}", bench_minutes=minutes)

    def _unmet(self, position: Position, is_ready: IsReady) -> Iterator[tuple[Wait, tuple[Position, ...]]]:
        for wait in self._waits.get(position.assembly_id, ()):
            if wait.step_id is not None and not self._is_owed(wait.step_id, position.id):
                continue
            targets = tuple(
                target
                for target in self._waited_for(position, wait.on_assembly_id)
                if not (
                    is_ready(target.id)
                    if wait.on_step_id is None
                    else (wait.on_step_id, target.id) in self._work.ticks
                )
            )
            if targets:
                yield wait, targets

    def _waited_for(self, position: Position, on_assembly_id: int) -> list[Position]:
        assembly = self._snapshot.assembly
        same_count = assembly[position.assembly_id].count == assembly[on_assembly_id].count
        return waited_for(position, self._snapshot.positions_of.get(on_assembly_id, ()), same_count)

    def _is_owed(self, step_id: int, position_id: int) -> bool:
        return (step_id, position_id) not in self._work.ticks and any(
            step.id == step_id for step in self._work.steps_in.get(position_id, ())
        )

    def _wait(self, position: Position, wait: Wait) -> Blocker:
        on = self._thing(wait.on_assembly_id)
        what = "ready" if wait.on_step_id is None else f"«{self._steps[wait.on_step_id].name}»"
        own = "" if wait.step_id is None else f"«{self._steps[wait.step_id].name}» "
        return Blocker(BlockerKind.WAIT, position.id, on, f"{own}waits for {on.name} {what}")

    def _thing(self, assembly_id: int) -> Thing:
        assembly = self._snapshot.assembly[assembly_id]
        return Thing("assembly", assembly.id, assembly.name)


_WORD = {Side.LEFT: "left", Side.RIGHT: "right", Side.NONE: "lead side"}
_THERE = (FILLED, ALLOTTED)
_FIT_KINDS = {
    Verdict.DUE: BlockerKind.FIT_DUE,
    Verdict.FAILED: BlockerKind.FIT_FAILED,
    Verdict.STALE: BlockerKind.FIT_STALE,
}
