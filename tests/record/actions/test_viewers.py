"""Questions of viewers and promises: they stand apart and hold nothing."""

from collections.abc import Callable

import pytest

from buildlog.errors import Refused
from buildlog.ledger import Ledger
from buildlog.status.status import take_stock

Tell = Callable[..., str]


@pytest.fixture
def episodes(legs: Ledger, tell: Tell) -> Ledger:
    """One episode is filmed, one is to come."""
    tell("plan_episode", at="2026-11-02T08:00:00Z", build="LB", films_at="2026-11-08T13:00:00Z")
    tell("plan_episode", build="LB", films_at="2026-12-06T13:00:00Z")
    return legs


def test_a_viewer_asks_under_the_episode_filmed_last_and_is_answered_in_the_next(
    episodes: Ledger, tell: Tell
) -> None:
    tell("viewer_asks", text="How heavy is it?")
    tell("answer_viewer", question="V1", answer="Twenty kilograms.")
    held = episodes.snapshot()
    (question,) = held.viewer_questions
    numbers = {episode.id: episode.number for episode in held.episodes}
    assert question.who == "a viewer"
    assert numbers[question.asked_episode_id or 0] == 1
    assert numbers[question.answered_episode_id or 0] == 2


def test_a_question_of_a_viewer_holds_nothing(episodes: Ledger, tell: Tell) -> None:
    before = take_stock(episodes.snapshot(), episodes.now()).blockers.leaves
    tell("viewer_asks", text="How heavy is it?")
    assert take_stock(episodes.snapshot(), episodes.now()).blockers.leaves == before


def test_a_viewer_is_answered_once(episodes: Ledger, tell: Tell) -> None:
    tell("viewer_asks", text="How heavy is it?")
    tell("answer_viewer", question="V1", answer="Twenty kilograms.")
    with pytest.raises(Refused, match="was answered at"):
        tell("answer_viewer", question="V1", answer="Thirty.")


def test_a_promise_says_who_gave_what_and_is_kept_once(legs: Ledger, tell: Tell) -> None:
    tell("make_promise", who="the neighbour", supplied="the hall for a night", promised="a mention")
    assert tell("keep_promise", promise="PR1") == "Kept PR1: a mention, to the neighbour."
    assert legs.snapshot().promises[0].kept_at is not None
    with pytest.raises(Refused, match="is kept since"):
        tell("keep_promise", promise="PR1")


def test_a_promise_is_not_kept_before_it_was_made(legs: Ledger, tell: Tell) -> None:
    tell("make_promise", who="the neighbour", promised="a mention")
    with pytest.raises(Refused, match="keep it after that"):
        tell("keep_promise", promise="PR1", at="2026-11-02T08:00:00Z")
