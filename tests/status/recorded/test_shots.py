"""Shots: what they hold, whose turn they are, and what can be done about them."""

from collections.abc import Callable
from typing import Any

import pytest

from buildlog.facts.shot_state import ShotState
from buildlog.ledger import Ledger
from buildlog.status.blocker import BlockerKind
from buildlog.status.doable import Doable
from buildlog.status.shots import carried_over_from, shots_for
from buildlog.status.status import Status, take_stock
from buildlog.terms import Moment, Side

BEGAN = Moment("2026-11-01T06:00:00Z")
MADE = "2026-11-20T08:00:00Z"


@pytest.fixture
def look(ledger: Ledger) -> Callable[[], Status]:
    return lambda: take_stock(ledger.snapshot(), ledger.now())


@pytest.fixture
def legs(beetle: Ledger, add: Any, do: Any) -> Ledger:
    """Shins lie there for both legs; gluing them cannot be undone, and the left one is to be filmed before."""
    add("step", BEGAN, code="GLUE", name="glue", assembly="LEG", kind="bond", bench_time="30", cannot_be_undone="yes")
    for side in ("L", "R"):
        do("count_part", MADE, part="SHIN", side=side, pieces="2")
    do("plan_episode", MADE, build="LB", films_at="2026-11-28T13:00:00Z", title="Legs")
    do("plan_shot", what="the raw shins", step="GLUE", side="L")
    return beetle


def kinds(status: Status, side: Side) -> set[BlockerKind]:
    (leg,) = [a.id for a in status.snapshot.assemblies if a.code == "LEG"]
    (place,) = [p.id for p in status.snapshot.positions if p.assembly_id == leg and p.side is side]
    return {leaf.kind for leaf in status.blockers.leaves.get(place, ())}


def filming(status: Status) -> list[Doable]:
    return [one for one in status.doable if one.about.noun == "shot"]


def test_a_shot_takes_the_place_of_the_step_that_it_holds_on_its_side(legs: Ledger, look: Any) -> None:
    status = look()
    assert BlockerKind.FILM_FIRST in kinds(status, Side.LEFT)
    assert BlockerKind.STEP_OPEN not in kinds(status, Side.LEFT)
    assert BlockerKind.STEP_OPEN in kinds(status, Side.RIGHT)
    assert [one.text for one in filming(status)] == ["film before «glue»: the raw shins"]
    assert filming(status)[0].goal


def test_footage_is_looked_at_before_the_step_opens(legs: Ledger, do: Any, look: Any) -> None:
    do("film_shot", shot="S1")
    assert [one.text for one in filming(look())] == ["look at the footage: the raw shins"]
    do("footage_safe", shot="S1")
    assert kinds(look(), Side.LEFT) == {BlockerKind.STEP_OPEN}
    assert filming(look()) == []


def test_a_shot_gone_on_without_holds_nothing(legs: Ledger, do: Any, look: Any) -> None:
    do("overrule_shot", shot="S1", why="too dark")
    assert kinds(look(), Side.LEFT) == {BlockerKind.STEP_OPEN}


def test_a_shot_before_no_step_can_be_filmed_at_any_time(legs: Ledger, do: Any, look: Any) -> None:
    do("plan_shot", what="the bench", build="LB")
    texts = {one.text for one in filming(look())}
    assert texts == {"film before «glue»: the raw shins", "film: the bench"}


def test_a_shot_before_a_step_that_is_not_open_yet_is_not_offered(legs: Ledger, add: Any, do: Any, look: Any) -> None:
    add("step", code="PAINT", name="paint", assembly="LEG", kind="paint", bench_time="30")
    do("plan_shot", what="bare legs", step="PAINT")
    assert "film: bare legs" not in {one.text for one in filming(look())}


def test_what_is_not_filmed_falls_to_the_next_episode_when_its_own_is_closed(
    legs: Ledger, do: Any, look: Any, clock: Any
) -> None:
    do("plan_shot", what="the bench", build="LB")
    do("film_shot", shot="S2", safe="yes")
    do("plan_episode", build="LB", films_at="2026-12-05T13:00:00Z")
    clock.move_on(days=4)
    do("close_episode", build="LB", number="1")
    status = look()
    first, second = status.snapshot.episodes
    falls = shots_for(status.snapshot, second, status.now)
    assert [(one.shot.code, one.carried_over) for one in falls] == [("S1", True)]
    assert [shot.code for shot in carried_over_from(status.snapshot, first)] == ["S1"]
    clock.move_on(days=1)
    do("film_shot", shot="S1")
    later = look()
    assert [shot.code for shot in carried_over_from(later.snapshot, first)] == ["S1"]
    assert [one.state for one in shots_for(later.snapshot, second, later.now)] == [ShotState.FILMED]
    legs.undo()
    legs.undo()
    again = look()
    assert list(carried_over_from(again.snapshot, again.snapshot.episodes[0])) == []
