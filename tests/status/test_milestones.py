"""The next days that do not move, the hours before them, and what breaks them."""

import pytest

from buildlog.facts.builds import Milestone, MilestoneTarget
from buildlog.status.milestones import bench_minutes_until
from buildlog.terms import GoalKind, MilestoneKind, Moment, Side, StepKind, Wanted

NOW = Moment("2026-11-25T12:00:00Z")
PARADE, REHEARSAL = Moment("2026-12-05T17:00:00Z"), Moment("2026-11-28T17:00:00Z")


@pytest.fixture
def beetle(shop):
    """Horns (3 × 60 min), head (1 × 60 min) and paired legs (1 × 60 min on each side), all to print."""
    shop.printer()
    build = shop.build()
    root = shop.assembly("BEETLE", build)
    for code, quantity, paired in (("HORNS", 3, False), ("HEAD", 1, False), ("LEG", 1, True)):
        shop.use(shop.part(f"P-{code}"), shop.assembly(code, root, paired=paired), quantity)
    return shop


def milestone(shop, due, *targets, hard=True, kind=MilestoneKind.EVENT, **given):
    made = shop.row("milestones", Milestone, code=f"M{due}", name="day", kind=kind, due_at=due, hard=hard, **given)
    assemblies = {a.code: a.id for a in shop.rows["assemblies"]}
    for code, side in targets:
        shop.row("milestone_targets", MilestoneTarget, milestone_id=made.id, assembly_id=assemblies[code], side=side,
                 wanted=Wanted.READY)  # fmt: skip
    return made


def test_the_next_hard_milestone_is_the_first_that_does_not_move(beetle):
    milestone(beetle, REHEARSAL, ("HEAD", None), hard=False)
    milestone(beetle, PARADE, ("HEAD", None))
    outlook = beetle.status().outlook
    assert (outlook.next_hard.due_at, outlook.next_hard.days_left) == (PARADE, 10)
    assert [m.due_at for m in outlook.milestones] == [REHEARSAL, PARADE]


def test_the_breakers_are_the_targets_with_most_hours_beneath(beetle):
    milestone(beetle, PARADE, ("HEAD", None), ("LEG", Side.LEFT), ("HORNS", None))
    breakers = beetle.status().outlook.breakers
    assert [b.name for b in breakers] == ["horns", "head", "leg L"]
    assert breakers[0].minutes_beneath > 3 * 60
    assert all(b.blockers > 0 for b in breakers)


def test_a_milestone_that_names_nothing_wants_the_whole_build_and_is_broken_by_its_assemblies(beetle):
    milestone(beetle, PARADE, build_id=1)
    outlook = beetle.status().outlook
    assert [t.name for t in outlook.next_hard.targets] == ["beetle"]
    assert [b.name for b in outlook.breakers] == ["horns", "leg", "head"]


def test_a_filming_day_that_names_nothing_wants_the_goals_of_its_episode(beetle):
    episode = beetle.episode(beetle.rows["builds"][0], REHEARSAL)
    beetle.goal(episode, GoalKind.READY, assembly_id=3, side=None)
    milestone(beetle, REHEARSAL, kind=MilestoneKind.FILMING, build_id=1)
    outlook = beetle.status().outlook
    assert [t.name for t in outlook.next_hard.targets] == ["head"]
    assert outlook.filming == {1: REHEARSAL}


def test_what_is_ready_breaks_nothing(beetle):
    milestone(beetle, PARADE, ("HEAD", None))
    part = next(p for p in beetle.rows["parts"] if p.code == "P-HEAD")
    beetle.lot(part)
    outlook = beetle.status().outlook
    assert (outlook.next_hard.is_met, outlook.breakers) == (True, ())


def test_what_may_not_carry_load_yet_holds_a_milestone_that_wants_it_ready(beetle):
    milestone(beetle, PARADE, ("HEAD", None))
    head, usage = beetle.positions(beetle.rows["assemblies"][2])[0], beetle.rows["usages"][1]
    beetle.fit(beetle.lot(next(p for p in beetle.rows["parts"] if p.code == "P-HEAD")), head, usage)
    bonding = beetle.step(beetle.rows["assemblies"][2], StepKind.BOND, load_after_minutes=180)
    beetle.tick(bonding, head, at=Moment("2026-11-25T10:00:00Z"))
    assert beetle.status().blockers.is_ready(head.id)
    (breaker,) = beetle.status().outlook.breakers
    assert (breaker.blockers, breaker.load_until) == (0, Moment("2026-11-25T13:00:00Z"))
    assert beetle.status(Moment("2026-11-25T13:00:00Z")).outlook.next_hard.is_met


def test_shown_wants_something_in_every_slot_and_no_more(beetle):
    wanted = milestone(beetle, PARADE)
    beetle.row("milestone_targets", MilestoneTarget, milestone_id=wanted.id, assembly_id=3, side=None,
               wanted=Wanted.SHOWN)  # fmt: skip
    assert beetle.status().outlook.next_hard.is_met is False
    head = beetle.positions(beetle.rows["assemblies"][2])[0]
    beetle.fit(None, head, beetle.rows["usages"][1], what="cardboard", stand_in=True)
    assert beetle.status().outlook.next_hard.is_met is True


def test_a_missed_milestone_stays_until_it_is_met(beetle):
    missed = milestone(beetle, Moment("2026-11-20T12:00:00Z"), ("HEAD", None))
    outlook = beetle.status().outlook
    assert outlook.next_hard is None
    assert [(m.milestone_id, m.days_left) for m in outlook.milestones] == [(missed.id, -5)]


def test_my_hours_are_the_share_of_my_days_that_is_for_building(shop):
    """Days from 8 to 23 o'clock, 60 % of them: 9 hours a day."""
    assert bench_minutes_until(shop.snapshot(), NOW, Moment("2026-11-27T12:00:00Z")) == 2 * 9 * 60
    assert bench_minutes_until(shop.snapshot(), NOW, Moment("2026-11-20T12:00:00Z")) == 0
