"""Shots: filmed, then safe; what they hold until then, and going on without one."""

from collections.abc import Callable
from typing import Any

import pytest

from buildlog.errors import BadWish, Refused
from buildlog.ledger import Ledger
from buildlog.proposals.nouns import Change, Retire

Tell = Callable[..., str]


@pytest.fixture
def held(legs: Ledger, tell: Tell) -> Ledger:
    """Painting a leg cannot be undone, and a shot of the left one comes before it."""
    legs.record(Change("step", "LEG-SAND", {"cannot_be_undone": True}))
    tell("plan_shot", what="the raw edge", step="LEG-SAND", side="L")
    return legs


def test_a_step_that_cannot_be_undone_is_refused_until_the_footage_is_safe(held: Ledger, tell: Tell) -> None:
    with pytest.raises(Refused, match=r"film first.*S1 «the raw edge» is not filmed.*Do that first"):
        tell("tick_step", step="LEG-SAND", place="LEG L")
    tell("film_shot", shot="S1")
    with pytest.raises(Refused, match="copied and looked at"):
        tell("tick_step", step="LEG-SAND", place="LEG L")
    tell("footage_safe", shot="S1")
    assert tell("tick_step", step="LEG-SAND", place="LEG L").startswith("Done")
    assert [done.overruled for done in held.snapshot().steps_done] == [False]


def test_a_shot_of_one_side_holds_that_side_only(held: Ledger, tell: Tell) -> None:
    assert tell("tick_step", step="LEG-SAND", place="LEG R").startswith("Done")


def test_a_shot_without_a_side_holds_both_sides(held: Ledger, tell: Tell) -> None:
    tell("plan_shot", what="both legs side by side", step="LEG-SAND")
    with pytest.raises(Refused, match="S2"):
        tell("tick_step", step="LEG-SAND", place="LEG R")


def test_a_step_that_can_be_undone_is_held_by_no_shot(legs: Ledger, tell: Tell) -> None:
    tell("plan_shot", what="the raw edge", step="LEG-SAND")
    assert tell("tick_step", step="LEG-SAND", place="LEG L").startswith("Done")


def test_a_person_overrules_the_shot_or_the_one_tick(held: Ledger, tell: Tell) -> None:
    assert "too dark" in tell("overrule_shot", shot="S1", why="too dark")
    assert tell("tick_step", step="LEG-SAND", place="LEG L").startswith("Done")
    tell("plan_shot", what="the other raw edge", step="LEG-SAND", side="R")
    tell("tick_step", step="LEG-SAND", place="LEG R", overruled="yes")
    assert [done.overruled for done in held.snapshot().steps_done] == [False, True]


def test_lost_footage_is_to_be_filmed_again_and_holds_again(held: Ledger, tell: Tell) -> None:
    tell("film_shot", shot="S1", safe="yes")
    tell("footage_lost", shot="S1")
    (shot,) = held.snapshot().shots
    assert (shot.filmed_at, shot.safe_at) == (None, None)
    with pytest.raises(Refused, match="is not filmed"):
        tell("tick_step", step="LEG-SAND", place="LEG L")


def test_what_was_filmed_later_does_not_free_a_step_told_of_before(held: Ledger, tell: Tell, clock: Any) -> None:
    before = clock.ago(minutes=0)
    clock.move_on(hours=2)
    tell("film_shot", shot="S1", safe="yes")
    with pytest.raises(Refused, match=r"film first"):
        tell("tick_step", step="LEG-SAND", place="LEG L", at=before)


def test_a_step_on_pieces_is_held_too(legs: Ledger, tell: Tell) -> None:
    legs.record(Change("step", "TIP-PRIME", {"cannot_be_undone": True}))
    tell("count_part", part="TIP", pieces="4")
    tell("plan_shot", what="raw tips", step="TIP-PRIME")
    with pytest.raises(Refused, match="S1 «raw tips»"):
        tell("tick_step", step="TIP-PRIME", what="TIP")
    tell("film_shot", shot="S1", safe="yes")
    assert tell("tick_step", step="TIP-PRIME", what="TIP").startswith("Done")


@pytest.mark.parametrize("wish", ["footage_safe", "footage_lost"])
def test_there_is_no_footage_of_what_was_not_filmed(held: Ledger, tell: Tell, wish: str) -> None:
    with pytest.raises(Refused, match="not filmed yet"):
        tell(wish, shot="S1")


def test_nothing_is_filmed_or_copied_twice_and_nothing_safe_is_overruled(held: Ledger, tell: Tell) -> None:
    tell("film_shot", shot="S1", safe="yes")
    for wish in ("film_shot", "footage_safe", "overrule_shot"):
        with pytest.raises(Refused):
            tell(wish, shot="S1")


def test_a_shot_is_for_the_episode_that_films_next(legs: Ledger, tell: Tell) -> None:
    tell("plan_shot", what="before any episode", build="LB")
    tell("plan_episode", build="LB", films_at="2026-12-20T13:00:00Z")
    tell("plan_episode", build="LB", films_at="2026-12-06T13:00:00Z")
    said = tell("plan_shot", what="the legs", step="LEG-BOND")
    assert "for episode 2" in said
    held = legs.snapshot()
    numbers = {episode.id: episode.number for episode in held.episodes}
    assert [numbers.get(shot.episode_id or 0) for shot in held.shots] == [None, 2]


def test_a_closed_episode_takes_no_new_shot(legs: Ledger, tell: Tell) -> None:
    tell("plan_episode", build="LB", films_at="2026-12-06T13:00:00Z")
    tell("close_episode", build="LB")
    with pytest.raises(Refused, match="Episode 1 is closed"):
        tell("plan_shot", what="too late", build="LB", episode="1")


def test_a_side_is_named_only_where_the_step_has_sides(legs: Ledger, tell: Tell) -> None:
    with pytest.raises(Refused, match="TIP, where step TIP-PRIME is done, has no sides"):
        tell("plan_shot", what="tips", step="TIP-PRIME", side="L")


def test_of_several_open_builds_one_must_be_named(legs: Ledger, tell: Tell, add: Any) -> None:
    add("build", code="DC", name="Drum Cart")
    with pytest.raises(BadWish, match="DC"):
        tell("plan_shot", what="the street")


def test_a_step_that_a_shot_is_still_to_be_filmed_before_is_not_retired(held: Ledger) -> None:
    with pytest.raises(Refused, match="shot to film S1"):
        held.record(Retire("step", "LEG-SAND"))
