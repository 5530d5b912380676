"""Ended prints are put right, unless something stands on what would go."""

import pytest

from buildlog.errors import BadWish, Refused
from buildlog.terms import FigureOrigin, Grade, JobState, Side

EIGHT, NOON, SIX = "2026-11-24T08:00:00Z", "2026-11-24T12:00:00Z", "2026-11-24T18:00:00Z"


def job(ledger):
    return ledger.snapshot().jobs[0]


def lots(ledger):
    return [(lot.side, lot.quantity, lot.grade, lot.mark) for lot in ledger.snapshot().lots]


@pytest.fixture
def finished(shop, do):
    do("start_print", EIGHT, lines="FL07 L, HINGE x4", printer="P1", spools="B1")
    do("finish_print", SIX)
    return shop


def test_times_take_feeds_and_pieces_along(finished, do):
    do("correct_print", job="1", started="2026-11-24T07:00:00Z", ended="2026-11-24T17:00:00Z")
    assert (job(finished).started_at, job(finished).ended_at) == ("2026-11-24T07:00:00Z", "2026-11-24T17:00:00Z")
    (feed,) = finished.snapshot().feeds
    assert (feed.from_at, feed.to_at, feed.real_mg) == ("2026-11-24T07:00:00Z", "2026-11-24T17:00:00Z", 500_000)
    assert {lot.made_at for lot in finished.snapshot().lots} == {"2026-11-24T17:00:00Z"}
    assert finished.check() == []


def test_a_correction_that_says_nothing_is_refused_with_what_can_be_said(finished, do):
    with pytest.raises(
        Refused, match=r"Nothing of print 1 .* Say at least one of: started, ended, .*, grams, .*cause"
    ):
        do("correct_print", job="1")
    with pytest.raises(Refused, match="Nothing of print 1"):
        do("correct_print", job="1", figures_from="from scale")


def test_no_restarts_are_something_said(finished, do):
    do("correct_print", job="1", cause="stringing")
    do("correct_print", job="1", restarts="0")
    assert job(finished).cause == "stringing"


def test_times_that_would_overlap_another_print_are_refused(finished, do):
    do("start_print", "2026-11-24T19:00:00Z", file="F1", spools="B1")
    with pytest.raises(Refused, match=r"P1 runs print 2 «Shins» since"):
        do("correct_print", job="1", ended="2026-11-24T20:00:00Z")


def test_an_end_after_a_later_fact_about_a_piece_is_refused(finished, do):
    do("damage_pieces", "2026-11-24T20:00:00Z", what="FL07L-A", where="tip")
    with pytest.raises(Refused, match=r"FL07L-A: it was damaged Tue 24 Nov 21:00, before the print would have ended"):
        do("correct_print", job="1", ended="2026-11-24T21:00:00Z")


def test_figures_are_typed_afterwards(finished, do):
    do("correct_print", job="1", real_time="9 h", grams="470", restarts="1")
    (feed,) = finished.snapshot().feeds
    assert (feed.real_mg, feed.real_from) == (470_000, FigureOrigin.TYPED)
    assert (job(finished).real_minutes, job(finished).real_from, job(finished).restarts) == (
        540,
        FigureOrigin.TYPED,
        1,
    )


def test_after_a_swap_the_last_spool_takes_the_difference(shop, do):
    do("start_print", EIGHT, file="F1", spools="B1")
    do("swap_spool", NOON, spool="B2", grams="150")
    do("finish_print", SIX)
    do("correct_print", job="1", grams="520")
    assert [feed.real_mg for feed in shop.snapshot().feeds] == [150_000, 370_000]
    do("correct_print", job="1", grams="100")
    assert sum(feed.real_mg for feed in shop.snapshot().feeds) == 100_000


def test_start_and_end_must_hold_a_swap_between_them(shop, do):
    do("start_print", EIGHT, file="F1", spools="B1")
    do("swap_spool", NOON, spool="B2")
    do("finish_print", SIX)
    with pytest.raises(Refused, match="was swapped Tue 24 Nov 13:00"):
        do("correct_print", job="1", ended="2026-11-24T11:00:00Z")


def test_a_count_goes_down_and_up_again(finished, do):
    do("correct_print", job="1", outcomes="HINGE x1 scrap", cause="stringing")
    assert lots(finished)[1] == (Side.NONE, 3, Grade.GOOD, None)
    assert finished.snapshot().job_lines[1].cause == "stringing"
    assert finished.check() == []
    do("correct_print", job="1", outcomes="HINGE good")
    assert lots(finished)[1] == (Side.NONE, 4, Grade.GOOD, None)
    assert finished.snapshot().job_lines[1].cause == ""
    do("correct_print", job="1", outcomes="HINGE x4 second")
    assert lots(finished)[1] == (Side.NONE, 4, Grade.SECOND, None)
    assert finished.check() == []


def test_a_single_piece_becomes_a_second_and_keeps_its_mark(finished, do):
    do("correct_print", job="1", outcomes="FL07 L second")
    assert lots(finished)[0] == (Side.LEFT, 1, Grade.SECOND, "FL07L-A")


def test_a_piece_with_a_fact_on_it_cannot_go(finished, do):
    do("damage_pieces", "2026-11-24T20:00:00Z", what="FL07L-A", where="tip")
    with pytest.raises(Refused, match=r"FL07L-A cannot go: it was damaged Tue 24 Nov 21:00"):
        do("correct_print", job="1", outcomes="FL07 L scrap")


def test_a_print_turns_out_to_be_the_other_side(finished, do):
    do("correct_print", job="1", other_side="yes")
    assert lots(finished)[0] == (Side.RIGHT, 1, Grade.GOOD, "FL07R-A")
    assert finished.check() == []


def test_a_failure_is_computed_anew_from_its_times(shop, do):
    do("start_print", EIGHT, file="F1", spools="B1")
    do("fail_print", SIX, stopped=NOON)
    do("correct_print", job="1", stopped="2026-11-24T13:00:00Z")
    (feed,) = shop.snapshot().feeds
    assert (feed.to_at, feed.real_mg, job(shop).real_minutes) == ("2026-11-24T13:00:00Z", 250_000, 300)
    with pytest.raises(BadWish, match=r"it ended .* before it stopped"):
        do("correct_print", job="1", ended=NOON)


def test_only_ended_prints_are_corrected(shop, do):
    do("queue_print", file="F1")
    with pytest.raises(Refused, match="is queued, not finished or failed"):
        do("correct_print", job="1", grams="3")


def test_a_print_that_was_taken_for_failed_is_finished_with_all_its_pieces(shop, do):
    do("start_print", EIGHT, lines="FL07 L, HINGE x4", printer="P1", spools="B1")
    do("fail_print", SIX, cause="let go", went_wrong=NOON, stopped="2026-11-24T13:00:00Z")
    assert lots(shop) == []
    do("correct_print", job="1", ended_as="finished")
    found = job(shop)
    assert (found.state, found.stopped_at, found.went_wrong_at, found.cause) == (JobState.FINISHED, None, None, "")
    assert (found.real_minutes, found.real_from) == (found.estimate_minutes, FigureOrigin.ESTIMATE)
    (feed,) = shop.snapshot().feeds
    assert (feed.to_at, feed.real_mg) == (SIX, 500_000)
    assert lots(shop) == [(Side.LEFT, 1, Grade.GOOD, "FL07L-A"), (Side.NONE, 4, Grade.GOOD, None)]
    assert shop.check() == []


def test_a_print_that_was_taken_for_finished_failed_and_keeps_what_is_named(finished, do):
    do("correct_print", job="1", ended_as="failed", stopped=NOON, cause="warped", outcomes="HINGE x2 good")
    found = job(finished)
    assert (found.state, found.stopped_at, found.cause) == (JobState.FAILED, NOON, "warped")
    assert lots(finished) == [(Side.NONE, 2, Grade.GOOD, None)]
    assert finished.snapshot().feeds[0].to_at == NOON
    assert finished.check() == []


@pytest.mark.parametrize("wrong", [{"other_side": "yes"}, {"other_side": "yes", "outcomes": "HINGE x1 scrap"}])
def test_marks_that_changed_hands_in_a_correction_change_back(shop, do, wrong):
    do("start_print", EIGHT, file="F1", spools="B1")
    do("finish_print", SIX)
    before = lots(shop)
    do("correct_print", job="1", **wrong)
    after = lots(shop)
    assert {mark for *_, mark in after} & {mark for *_, mark in before} - {None}
    shop.undo()
    assert lots(shop) == before
    shop.redo()
    assert lots(shop) == after
