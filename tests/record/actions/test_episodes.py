"""Planning and closing episodes, and their goals."""

import pytest

from buildlog.errors import BadWish, NotFound, Refused

SATURDAY, NEXT = "2026-11-28T09:00:00Z", "2026-12-05T09:00:00Z"


def goals(ledger) -> list[tuple[int, str, bool]]:
    return [(g.episode_id, g.kind.value, g.retired_at is not None) for g in ledger.snapshot().goals]


def test_an_episode_takes_the_next_number_and_its_goals(legs, tell) -> None:
    tell("plan_episode", build="LB", films_at=SATURDAY, number="14")
    said = tell(
        "plan_episode",
        build="LB",
        films_at=NEXT,
        goals="ready LEG L; step LEG-BOND; prove SHIN; turn the head",
    )
    assert said.startswith("Planned episode 15 of LB, films Sat 5 Dec 10:00: ready LEG L;")
    assert [kind for _, kind, _ in goals(legs)] == ["ready", "step", "prove", "free"]


def test_goals_go_to_the_episode_that_films_next(legs, tell) -> None:
    for films_at in (NEXT, SATURDAY):
        tell("plan_episode", build="LB", films_at=films_at)
    tell("add_goals", build="LB", goals="shown LEG")
    assert goals(legs) == [(2, "shown", False)]


def test_setting_goals_keeps_those_that_stay(legs, tell) -> None:
    tell("plan_episode", build="LB", films_at=SATURDAY, goals="shown LEG; prove SHIN")
    tell("tick_goal", build="LB", goal="shown")
    tell("set_goals", build="LB", goals="shown LEG; ready LEG R")
    assert goals(legs) == [(1, "shown", False), (1, "prove", True), (1, "ready", False)]
    assert legs.snapshot().goals[0].ticked_at is not None


def test_a_goal_is_ticked_by_how_it_begins_and_unticked(legs, tell) -> None:
    tell("plan_episode", build="LB", films_at=SATURDAY, goals="show the head; show the tail")
    with pytest.raises(NotFound, match="Did you mean show the head, show the tail"):
        tell("tick_goal", build="LB", goal="show")
    assert tell("tick_goal", build="LB", goal="show the h") == "Reached: show the head."
    tell("tick_goal", build="LB", goal="#1", untick="yes")
    assert [goal.ticked_at for goal in legs.snapshot().goals] == [None, None]


def test_closing_keeps_the_text_and_carries_open_goals_over(legs, tell) -> None:
    tell("plan_episode", build="LB", films_at=SATURDAY, goals="one; two; three")
    with pytest.raises(Refused, match="plan it first"):
        tell("close_episode", build="LB", carry_over="yes")
    tell("plan_episode", build="LB", films_at=NEXT)
    tell("tick_goal", build="LB", goal="one")
    said = tell("close_episode", given={"document": "# Week", "carry": (2,)}, build="LB", carry_over="yes")
    assert said == "Closed episode 1 of LB, 1 goals carried over."
    snapshot = legs.snapshot()
    assert (snapshot.episodes[0].document, snapshot.episodes[0].closed_at) == ("# Week", legs.now())
    assert [(g.episode_id, g.text) for g in snapshot.goals][3:] == [(2, "two")]


def test_a_closed_episode_is_opened_only_by_undo(legs, tell) -> None:
    tell("plan_episode", build="LB", films_at=SATURDAY)
    tell("close_episode", given={"document": "# Week"}, build="LB")
    with pytest.raises(Refused, match="undo the closing"):
        tell("close_episode", build="LB", number="1")
    legs.undo()
    (episode,) = legs.snapshot().episodes
    assert (episode.document, episode.closed_at) == (None, None)


def test_without_an_open_episode_one_is_planned_first(legs, tell) -> None:
    with pytest.raises(BadWish, match="plan one first"):
        tell("add_goals", build="LB", goals="shown LEG")
