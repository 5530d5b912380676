"""What can be done now: work for a person, with all that it takes on hand."""

from collections import defaultdict
from typing import NamedTuple

from buildlog.facts.bench import FitTest, Step
from buildlog.facts.builds import Goal
from buildlog.facts.frozen import frozen
from buildlog.facts.shot_state import ShotState
from buildlog.facts.snapshot import Snapshot
from buildlog.status import bench_minutes
from buildlog.status.blocker import Blocker, BlockerKind, Thing
from buildlog.status.blockers import Blockers
from buildlog.status.cautions import caution_of_step, caution_of_test
from buildlog.status.fits import Fits, Verdict
from buildlog.status.goals import Goals, running_goals
from buildlog.status.helps import helps_at
from buildlog.status.kept import Kept
from buildlog.status.shots import ShotStanding
from buildlog.terms import BuildState, Moment

LEAST_MINUTES = 5
"""What helps is weighed per minute of work, of which at least so many are reckoned."""


@frozen
class Doable:
    """``helps`` = Σ over the positions that contain the blocker of 1 ÷ leaf blockers left there. ``kind`` is None for
    a goal in free words and a spot check. ``goal``: it serves a goal of a running episode. ``caution_key`` names a
    caution of the reference data, "" where there is none. ``position_id`` is the first place where it helps,
    ``position_ids`` are all.
    """

    about: Thing
    text: str
    position_id: int | None
    kind: BlockerKind | None
    minutes: int
    helps: float
    goal: bool
    needs_two: bool
    helper_can: bool
    caution_key: str
    position_ids: tuple[int, ...] = ()

    @property
    def worth(self) -> float:
        """What it helps per minute of work."""
        return self.helps / max(LEAST_MINUTES, self.minutes)


DOABLE_READ = ("builds", "assemblies", "positions", "steps", "fit_tests")
Leaves = dict[int, tuple[Blocker, ...]]
GOALS_READ = ("builds", "episodes", "goals", "positions", "shots", "steps")


def what_can_be_done(
    snapshot: Snapshot, now: Moment, fits: Fits, blockers: Blockers, kept: Kept | None = None
) -> tuple[Doable, ...]:
    """Goals of the running episodes first, then by what helps most per minute (at least 5)."""
    kept = kept or Kept(snapshot, now)
    goals = kept.ask("goals", GOALS_READ, (blockers,), lambda: running_goals(snapshot, now, blockers), moves=True)
    by_hand = kept.ask("leaves by hand", (), (blockers.leaves,), lambda: _by_hand(blockers))
    rests_on = (fits, goals, by_hand, blockers.beneath, blockers.children, blockers.waits_for)
    return kept.ask("doable", DOABLE_READ, rests_on, lambda: _doable(snapshot, fits, by_hand, blockers, goals))


def _by_hand(blockers: Blockers) -> Leaves:
    """Leaves that a person can end, by position."""
    of = {position: [leaf for leaf in leaves if leaf[-1] is not None] for position, leaves in blockers.leaves.items()}
    return {position: tuple(leaves) for position, leaves in of.items() if leaves}


def _doable(snapshot: Snapshot, fits: Fits, by_hand: Leaves, blockers: Blockers, goals: Goals) -> tuple[Doable, ...]:
    found = _from_blockers(snapshot, by_hand, helps_at(blockers), goals)
    found += _spot_checks(snapshot, fits, goals)
    found += [_free_goal(goal) for goal in goals.free]
    found += _shots(goals.shots, found)
    return tuple(sorted(found, key=lambda d: (not d.goal, -d.worth, d.minutes, d.text)))


class _What(NamedTuple):
    """Blockers that one piece of work ends: in one place for steps and fits, everywhere for the rest."""

    kind: BlockerKind
    about: Thing
    position_id: int | None


_IN_ONE_PLACE = frozenset((BlockerKind.STEP_OPEN, BlockerKind.FIT_DUE, BlockerKind.FIT_STALE))


def _from_blockers(snapshot: Snapshot, by_hand: Leaves, helping: dict[int, float], goals: Goals) -> list[Doable]:
    open_builds = {b.id for b in snapshot.builds if b.state is BuildState.OPEN and b.retired_at is None}
    alike: defaultdict[_What, list[Blocker]] = defaultdict(list)
    for position_id, leaves in by_hand.items():
        assembly = snapshot.assembly[snapshot.position[position_id].assembly_id]
        for leaf in leaves if assembly.build_id in open_builds else ():
            on_pieces = leaf.kind is BlockerKind.STEP_OPEN and leaf.pieces
            place = position_id if leaf.kind in _IN_ONE_PLACE and not on_pieces else None
            alike[_What(leaf.kind, leaf.about, place)].append(leaf)
    steps = {step.id: step for step in snapshot.steps}
    tests = {test.id: test for test in snapshot.fit_tests}
    found = []
    for what, ended in alike.items():
        step = steps[what.about.id] if what.about.noun == "step" else None
        held = [leaf.position_id for leaf in ended]
        places = tuple(dict.fromkeys(held))
        found.append(
            Doable(
                what.about,
                _text(what, ended),
                places[0],
                what.kind,
                _minutes(what, ended),
                sum([helping[position_id] for position_id in held]),
                goals.served_by(what.about, places),
                bool(step and step.needs_two),
                bool(step and step.helper_can),
                _caution(what, step, tests),
                places,
            )
        )
    return found


def _caution(what: _What, step: Step | None, tests: dict[int, FitTest]) -> str:
    if step is not None:
        return caution_of_step(step.kind)
    if what.about.noun == "fit test":
        return caution_of_test(tests[what.about.id].kind)
    return "drying" if what.kind is BlockerKind.SPOOL_WET else ""


_EACH_PIECE = frozenset((BlockerKind.STEP_OPEN, BlockerKind.MAKE_BY_HAND, BlockerKind.DAMAGED, BlockerKind.MISSING))


def _minutes(what: _What, leaves: list[Blocker]) -> int:
    """Work per piece adds up; a file, a drawing or an answer is made once for all."""
    if len(leaves) == 1:
        return leaves[0].bench_minutes or 0
    minutes = [leaf.bench_minutes or 0 for leaf in leaves]
    return sum(minutes) if what.kind in _EACH_PIECE else max(minutes)


def _text(what: _What, leaves: list[Blocker]) -> str:
    text = leaves[0].text
    if len(leaves) == 1 or not (pieces := sum([leaf.pieces for leaf in leaves])):
        return text
    return text.replace(f"{leaves[0].pieces} × {what.about.name}", f"{pieces} × {what.about.name}", 1)


def _spot_checks(snapshot: Snapshot, fits: Fits, goals: Goals) -> list[Doable]:
    """A reprint of the same revision asks for a look; it blocks nothing."""
    tests = {test.id: test for test in snapshot.fit_tests}
    found = []
    for state in fits.all:
        if state.verdict is Verdict.SPOT_CHECK:
            test = tests[state.test_id]
            about = Thing("fit test", test.id, test.name)
            place = (state.position_id,)
            found.append(
                Doable(
                    about,
                    f"{test.name}: {state.why}",
                    state.position_id,
                    None,
                    bench_minutes.SPOT_CHECK,
                    0.0,
                    goals.served_by(about, place),
                    False,
                    False,
                    caution_of_test(test.kind),
                    place,
                )
            )
    return found


def _shots(shots: tuple[ShotStanding, ...], others: list[Doable]) -> list[Doable]:
    """Shots of the running episodes that hold nothing: those before a step come up when that is open."""
    told = {one.about.id for one in others if one.about.noun == "shot"}
    open_steps = {one.about.id for one in others if one.about.noun == "step"}
    return [
        _shot(one)
        for one in shots
        if one.shot.id not in told
        and (one.state is ShotState.FILMED or one.step is None or one.step.id in open_steps)
    ]


def _shot(one: ShotStanding) -> Doable:
    filmed = one.state is ShotState.FILMED
    text = f"{'look at the footage' if filmed else 'film'}: {one.shot.what}"
    minutes = bench_minutes.LOOK_AT_FOOTAGE if filmed else bench_minutes.FILM_SHOT
    about = Thing("shot", one.shot.id, one.shot.code)
    return Doable(about, text, None, BlockerKind.FILM_FIRST, minutes, 0.0, True, False, False, "")


def _free_goal(goal: Goal) -> Doable:
    about = Thing("goal", goal.id, goal.text)
    return Doable(about, goal.text, None, None, 0, 0.0, True, False, False, "")
