"""What can be done now, in which order."""

from typing import Any

import pytest

from buildlog.status.blocker import BlockerKind
from buildlog.terms import BuildState, FitKind, GoalKind, JobState, Moment, Side, StepKind

FILMS = Moment("2026-11-28T10:00:00Z")


@pytest.fixture
def root(shop: Any) -> Any:
    return shop.assembly("ROOT", shop.build())


def texts(shop: Any) -> list[str]:
    return [doable.text for doable in shop.status().doable]


def test_what_helps_most_per_minute_comes_first(shop: Any, root: Any) -> None:
    arm, leg = shop.assembly("ARM", root), shop.assembly("LEG", root)
    shop.step(arm, StepKind.SAND, name="long", bench_minutes=60)
    shop.step(leg, StepKind.SAND, name="short", bench_minutes=10)
    assert texts(shop) == ["short", "long"]


def test_work_of_less_than_five_minutes_comes_no_sooner_for_that(shop: Any, root: Any) -> None:
    for name, minutes in (("first", 5), ("second", 1)):
        where = shop.assembly(name.upper(), root)
        shop.step(where, StepKind.SAND, name=name, bench_minutes=minutes)
    five, one = sorted(shop.status().doable, key=lambda doable: doable.minutes, reverse=True)
    assert (five.minutes, one.minutes) == (5, 1)
    assert five.worth == one.worth


def test_helps_is_the_sum_of_shares_over_all_positions_that_contain_it(shop: Any, root: Any) -> None:
    arm = shop.assembly("ARM", root)
    for name in ("ARM", "LEG", "HEAD"):
        shop.step(arm if name == "ARM" else shop.assembly(name, root), StepKind.SAND, name=name)
    (helps,) = {doable.helps for doable in shop.status().doable}
    assert helps == pytest.approx(1 + 1 / 3)


def test_ending_what_others_wait_for_helps_them_too(shop: Any, root: Any) -> None:
    arm, leg = shop.assembly("ARM", root), shop.assembly("LEG", root)
    shop.step(leg, StepKind.SAND, name="leg")
    shop.step(shop.assembly("HEAD", root), StepKind.SAND, name="head")
    shop.wait(arm, leg)
    helps = {doable.text: doable.helps for doable in shop.status().doable}
    assert helps["leg"] == pytest.approx(helps["head"] + 1)


def test_goals_of_the_running_episode_come_first(shop: Any, root: Any) -> None:
    arm, leg = shop.assembly("ARM", root), shop.assembly("LEG", root)
    shop.step(arm, StepKind.SAND, name="long", bench_minutes=60)
    shop.step(leg, StepKind.SAND, name="short", bench_minutes=10)
    later = shop.episode(shop.rows["builds"][0], Moment("2026-12-05T10:00:00Z"))
    shop.goal(later, GoalKind.READY, assembly_id=leg.id)
    shop.goal(shop.episode(shop.rows["builds"][0], FILMS), GoalKind.READY, assembly_id=arm.id)
    assert [(doable.text, doable.goal) for doable in shop.status().doable] == [("long", True), ("short", False)]


def test_a_goal_in_free_words_is_there_until_it_is_ticked(shop: Any, root: Any) -> None:
    goal = shop.goal(shop.episode(shop.rows["builds"][0], FILMS), GoalKind.FREE, text="sweep the floor")
    assert texts(shop) == ["sweep the floor"]
    shop.change("goals", goal, ticked_at=Moment("2026-11-25T10:00:00Z"))
    assert texts(shop) == []


def test_only_what_needs_a_person_and_is_on_hand(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    shop.printer()
    shop.prints(part, state=JobState.RUNNING)
    item = shop.bought(amount=0)
    shop.use(shop.part("HINGE", origin="bought", bought_item_id=item.id, revised=False), root)
    assert texts(shop) == []


def test_a_file_for_several_positions_is_prepared_once(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    for name in ("ARM", "LEG"):
        shop.use(part, shop.assembly(name, root), 2)
    (doable,) = [d for d in shop.status().doable if d.kind is BlockerKind.NEEDS_PREPARING]
    assert doable.text == "4 × FOOT: no file is ready for this revision"
    assert len(doable.position_ids) == 2


def test_a_step_with_a_danger_names_its_caution(shop: Any, root: Any) -> None:
    shop.step(root, StepKind.SOLVENT_BOND, needs_two=True)
    (doable,) = shop.status().doable
    assert (doable.caution_key, doable.needs_two) == ("solvent_bonding", True)
    assert doable.caution_key in shop.known.cautions


def test_a_spot_check_is_asked_for_though_it_blocks_nothing(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    usage, position = shop.use(part, root), shop.position(root)
    fitting = shop.fit(shop.lot(part), position, usage)
    shop.result(shop.fit_test(root, usage, kind=FitKind.ON_PERSON), position, fitting)
    shop.take_out(fitting, Moment("2026-11-20T08:00:00Z"))
    shop.fit(shop.lot(part), position, usage, from_at=Moment("2026-11-20T08:00:00Z"))
    status = shop.status()
    assert status.blockers.is_ready(position.id)
    assert [(doable.kind, doable.caution_key) for doable in status.doable] == [(None, "on_person")]


def test_paused_builds_ask_for_nothing(shop: Any, root: Any) -> None:
    shop.step(root, StepKind.SAND)
    shop.change("builds", shop.rows["builds"][0], state=BuildState.PAUSED)
    assert texts(shop) == []


def test_a_position_that_waits_for_itself_is_shown_as_waiting(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    shop.wait(legs, legs)
    status = shop.status()
    assert not status.blockers.is_ready(shop.position(legs, Side.LEFT).id)
