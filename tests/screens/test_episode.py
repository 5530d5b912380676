"""Episode: keys pressed, the record looked at."""

from pathlib import Path
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.episodes import PlanEpisode
from buildlog.proposals.goal_lines import read_goals
from buildlog.proposals.nouns import Change
from buildlog.proposals.promises import MakePromise
from buildlog.proposals.shots import FilmShot, PlanShot
from buildlog.proposals.viewers import ViewerAsks
from buildlog.terms import Moment

FILMS = Moment("2026-11-28T13:00:00Z")


@pytest.fixture
def week(workshop: Ledger) -> Ledger:
    """Episode 1 films on Saturday: two goals, a shot that holds sanding the head, and one of nothing."""
    workshop.record(Change("step", "HEAD-SAND", {"cannot_be_undone": True}))
    goals = read_goals("ready HEAD; a lamp that shines")
    workshop.record(PlanEpisode(build="LB", films_at=FILMS, title="Heads", goals=goals))
    workshop.record(PlanShot(what="the raw head", step="HEAD-SAND"))
    workshop.record(PlanShot(what="the bench", build="LB"))
    return workshop


async def go_to(on: Any, key: str) -> None:
    assert on.app.screen.query_one("#episode").move_to(key), key
    await on.settle()


async def test_goals_and_shots_of_the_running_episode_are_in_view(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7")
        assert [word in on.lines[1] for word in ("LB 1 Heads", "goals 0 of 2", "to film 2")] == [True] * 3
        assert "the raw head · before" in on.text
        assert "a lamp that shines" in on.text


async def test_a_goal_is_added_and_ticked_and_opened_again(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7 a")
        await on.fill({"goals": "a song"})
        await on.press("enter")
        added = week.snapshot().goals[-1]
        assert added.text == "a song"
        await go_to(on, f"goal:{added.id}")
        await on.press("t")
        assert week.snapshot().goals[-1].ticked_at is not None
        await on.press("t")
    assert week.snapshot().goals[-1].ticked_at is None


async def test_a_shot_is_planned_with_the_step_that_it_comes_before(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7 s")
        await on.fill({"what": "the glue", "step": "LEG-BOND"})
        await on.press("enter")
    held = week.snapshot()
    shot = held.shots[-1]
    assert (shot.code, shot.what, shot.episode_id) == ("S3", "the glue", held.episodes[0].id)
    assert next(step.code for step in held.steps if step.id == shot.step_id) == "LEG-BOND"


async def test_a_shot_is_filmed_then_its_footage_is_safe(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7")
        await go_to(on, "shot:1")
        await on.press("f enter")
        assert week.snapshot().shots[0].filmed_at is not None
        assert week.snapshot().shots[0].safe_at is None
        await on.press("c")
        assert week.snapshot().shots[0].safe_at is not None
        await on.press("l")
    assert week.snapshot().shots[0].filmed_at is None


async def test_a_shot_that_was_filmed_earlier_is_told_with_its_moment(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7")
        await go_to(on, "shot:1")
        await on.press("f")
        await on.fill({"at": "yesterday 11:00"})
        await on.press("enter")
    assert week.snapshot().shots[0].filmed_at == "2026-11-24T10:00:00Z"


async def test_going_on_without_a_shot_asks_why(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7")
        await go_to(on, "shot:1")
        await on.press("o")
        await on.write("too dark")
        await on.press("enter")
    assert week.snapshot().shots[0].overruled_why == "too dark"


async def test_enter_on_a_shot_asks_what_became_of_it(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7")
        await go_to(on, "shot:2")
        await on.press("enter 2 enter")
    shot = week.snapshot().shots[1]
    assert shot.filmed_at == shot.safe_at
    assert shot.safe_at is not None


async def test_a_viewer_asks_and_is_answered_and_a_promise_is_made_and_kept(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7 v")
        await on.fill({"text": "how heavy"})
        await on.press("enter")
        await go_to(on, "viewer question:1")
        await on.press("enter")
        await on.fill({"answer": "ten kilos"})
        await on.press("enter m")
        await on.fill({"who": "the hall", "promised": "a mention"})
        await on.press("enter")
        await go_to(on, "promise:1")
        await on.press("enter y")
    held = week.snapshot()
    assert (held.viewer_questions[0].text, held.viewer_questions[0].answer) == ("how heavy", "ten kilos")
    assert held.promises[0].kept_at is not None


async def test_closing_plans_the_next_episode_and_carries_over_what_is_open(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7 x")
        assert "what is open goes on to the next episode, and none is planned yet" in on.sentences
        await on.fill({"title": "Legs"})
        await on.press("enter")
        assert "2 open goals" in on.text
        assert "2 shots not filmed" in on.text
        await on.press("y")
        assert "LB 2 Legs" in on.lines[1]
        assert "carried over from 1" in on.text
    first, second = week.snapshot().episodes
    assert first.closed_at is not None
    assert "### Both sides" in (first.document or "")
    assert second.films_at == "2026-12-05T13:00:00Z"
    assert len([goal for goal in week.snapshot().goals if goal.episode_id == second.id]) == 2
    assert week.journal(1)[0].summary.startswith("Closed episode 1 of LB")
    week.undo()
    assert [episode.closed_at for episode in week.snapshot().episodes] == [None]


async def test_closing_with_a_next_episode_there_asks_only_once(week: Ledger, screens: Any) -> None:
    week.record(PlanEpisode(build="LB", films_at=Moment("2026-12-05T13:00:00Z")))
    async with screens(week) as on:
        await on.press("7 x n")
        assert week.snapshot().episodes[0].closed_at is None
        await on.press("x y")
    assert [episode.closed_at is None for episode in week.snapshot().episodes] == [False, True]


async def test_the_text_is_read_in_place_of_the_list_and_written_to_a_file(
    week: Ledger, screens: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    async with screens(week) as on:
        await on.press("7 p")
        assert "## Figures to say" in on.text
        assert "a lamp that shines" not in on.text
        await on.press("p w enter")
    text = (tmp_path / "lb-episode-1.md").read_text("utf-8")
    assert text.startswith("# Lantern Beetle, episode 1 «Heads»")


async def test_a_file_that_is_there_is_written_over_only_when_that_is_said(
    week: Ledger, screens: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    there = tmp_path / "lb-episode-1.md"
    there.write_text("mine")
    async with screens(week) as on:
        await on.press("7 w enter enter")  # enter is on no
        assert there.read_text() == "mine"
        await on.press("w enter y")
    assert there.read_text("utf-8") != "mine"


async def test_without_an_episode_it_leads_in_and_e_plans_one(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("7")
        assert "No episode yet" in on.text
        await on.press("e 1")
        await on.fill({"films_at": "2026-11-28 14:00"})
        await on.press("enter")
        assert "LB 1" in on.lines[1]
    assert [episode.films_at for episode in workshop.snapshot().episodes] == [FILMS]


async def test_today_says_what_is_to_be_filmed_first_and_enter_tells_of_it(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        assert "Film first, it cannot be undone" in on.text
        on.app.screen.query_one("#top").move_to("shot:1")
        await on.press("enter 1 enter")
        assert "look at the footage" in on.text
    assert week.snapshot().shots[0].filmed_at is not None


async def test_a_week_is_walked_through_in_a_large_window_with_the_text_beside(week: Ledger, screens: Any) -> None:
    week.record(ViewerAsks(text="Does it sing?", build="LB"))
    week.record(MakePromise(who="the hall", promised="a mention", build="LB"))
    week.record(FilmShot(shot="S2"))
    async with screens(week, size=(120, 40)) as on:
        await on.press("7")
        assert "## Figures to say" in on.text
        assert "- S2 the bench" in on.text  # in the text
        await go_to(on, "shot:1")
        await on.press("f enter c")
        await go_to(on, "goal:2")
        await on.press("t")
        assert "- a lamp that shines" in on.text
        await on.press("x enter y")
        assert "carried over" not in on.text.split("## Figures")[0]
    held = week.snapshot()
    assert [episode.closed_at is None for episode in held.episodes] == [False, True]
    assert [goal.episode_id for goal in held.goals if goal.ticked_at is None] == [1, 2]
