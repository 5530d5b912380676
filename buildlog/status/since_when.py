"""Since when each step and fit could have been done: what was there, ticked and cured by then."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from buildlog.facts.bench import Step
from buildlog.facts.snapshot import grouped
from buildlog.status.fitting_pieces import fitted_by_step, fitted_by_test
from buildlog.status.status import Status
from buildlog.terms import Moment, later

ALWAYS = Moment("")


class SinceWhen:
    """Answers from the status alone; ``ALWAYS`` where nothing had to come first."""

    def __init__(self, status: Status) -> None:
        self._status = status
        snapshot = status.snapshot
        self._steps = {step.id: step for step in snapshot.steps}
        self._below = grouped((p for p in snapshot.positions if p.retired_at is None), lambda p: p.parent_id)
        self._waits = grouped((w for w in snapshot.waits if w.retired_at is None), lambda w: w.step_id)
        self._stands = grouped((f for f in snapshot.fittings if f.until_at is None), lambda f: f.position_id)
        self._on_lot = grouped((t for t in snapshot.steps_done if t.lot_id is not None), lambda t: t.lot_id)
        ticked: defaultdict[int, list[tuple[int, Moment]]] = defaultdict(list)
        for (step_id, position_id), tick in status.work.ticks.items():
            ticked[position_id].append((step_id, tick.at))
        self._ticked = dict(ticked)

    def step_in(self, step: Step, position_id: int) -> Moment:
        """The steps before are over, what it joins is there, what it waits for is done."""
        status = self._status
        found = list(self.cured(position_id))
        lots = [lot for _, _, lot in fitted_by_step(status.needs, status.work, step.id, position_id)]
        found += self._pieces(lots)
        if step.kind.holds_slots:
            found += [fitting.from_at for fitting in self._stands.get(position_id, ())]
            found += self._done_below(position_id)
        found += self._footage(step)
        for wait in self._waits.get(step.id, ()):
            for position in status.snapshot.positions_of.get(wait.on_assembly_id, ()):
                found += [*self._moments(position.id), *self._done_below(position.id)]
        return max(found, default=ALWAYS)

    def step_on(self, step: Step) -> Moment:
        """All pieces of its part are there, and the step before is over on them."""
        lots = [lot.id for lot in self._status.snapshot.lots if lot.part_id == step.part_id]
        return max(self._pieces(lots), default=ALWAYS)

    def fit(self, test_id: int, position_id: int) -> Moment:
        """What it touches stands or lies there, and steps in its position are over."""
        status = self._status
        tried = fitted_by_test(status.needs, status.fits, test_id, position_id)
        found = [*self._pieces(lot for *_, lot in tried), *self.cured(position_id), *self._done_below(position_id)]
        for place, usage, number in status.fits.touched.get((test_id, position_id), ()):
            found += [f.from_at for f in self._stands.get(place, ()) if (f.usage_id, f.number) == (usage, number)]
            found += self._moments(place)
        return max(found, default=ALWAYS)

    def cured(self, position_id: int) -> Iterator[Moment]:
        """When each tick of a position could be handled."""
        for step_id, at in self._ticked.get(position_id, ()):
            yield later(at, self._steps[step_id].handle_after_minutes)

    def _footage(self, step: Step) -> Iterator[Moment]:
        """When what was to be filmed before it was looked at, or gone on without."""
        for shot in self._status.snapshot.shots if step.cannot_be_undone else ():
            if shot.step_id == step.id:
                yield from (at for at in (shot.safe_at, shot.overruled_at) if at is not None)

    def _moments(self, position_id: int) -> list[Moment]:
        return [at for _, at in self._ticked.get(position_id, ())]

    def _done_below(self, position_id: int) -> Iterator[Moment]:
        for child in self._below.get(position_id, ()):
            yield from self._moments(child.id)
            yield from self._done_below(child.id)

    def _pieces(self, lots: Iterable[int | None]) -> list[Moment]:
        """When the pieces were made and the steps on them were over."""
        found = []
        for lot_id in lots:
            if lot_id is not None:
                found.append(self._status.snapshot.lot[lot_id].made_at)
                found += [
                    later(t.at, self._steps[t.step_id].handle_after_minutes) for t in self._on_lot.get(lot_id, ())
                ]
        return found
