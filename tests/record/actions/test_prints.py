"""Prints start, finish, fail; their hours, grams and pieces."""

from dataclasses import replace

import pytest

from buildlog.errors import BadWish, InTheFuture, MayOverrule, Refused
from buildlog.proposals.nouns import Change
from buildlog.proposals.prints import StartPrint
from buildlog.terms import FigureOrigin, Grade, JobState, Side

EIGHT, NOON, SIX = "2026-11-24T08:00:00Z", "2026-11-24T12:00:00Z", "2026-11-24T18:00:00Z"


def job(ledger, job_id=1):
    (found,) = [j for j in ledger.snapshot().jobs if j.id == job_id]
    return found


def feeds(ledger, job_id=1):
    spools = {s.id: s.code for s in ledger.snapshot().spools}
    return [
        (spools.get(f.spool_id), f.from_at, f.to_at, f.real_mg, f.real_from)
        for f in ledger.snapshot().feeds_of_job[job_id]
    ]


def lots(ledger):
    return [(lot.side, lot.quantity, lot.grade, lot.mark) for lot in ledger.snapshot().lots]


@pytest.fixture
def running(shop, do):
    """The file F1 on P1 from B1 since eight."""
    do("load_spool", "2026-11-20T08:00:00Z", printer="P1", spool="B1")
    do("start_print", EIGHT, file="F1")
    return shop


def test_a_file_starts_from_the_loaded_spool(running):
    begun = job(running)
    assert (begun.state, begun.started_at) == (JobState.RUNNING, EIGHT)
    assert feeds(running) == [("B1", EIGHT, None, None, None)]
    assert running.check() == []


def test_starting_a_file_takes_its_queued_run(shop, do):
    do("queue_print", file="F1", rank="2")
    do("queue_print", file="F1", rank="1")
    do("start_print", file="F1", spools="B1")
    assert [j.state for j in shop.snapshot().jobs] == [JobState.QUEUED, JobState.RUNNING]


def test_a_named_spool_is_loaded_and_opened_by_the_start(shop, do):
    assert "B1 opened" in do("start_print", file="F1", spools="B1")
    assert shop.snapshot().set_ups[-1].kind == "loaded"


def test_a_busy_printer_is_refused_with_what_it_runs_and_since_when(running, do):
    with pytest.raises(Refused, match=r"P1 runs print 1 «Shins» since Tue 24 Nov 09:00: finish it first"):
        do("start_print", NOON, file="F1")


def test_a_printer_that_is_down_is_refused_until_it_should_be_up(shop, do):
    do("printer_down", EIGHT, printer="P1", why="belt", until=NOON)
    with pytest.raises(Refused, match=r"P1 is down since Tue 24 Nov 09:00 \(belt\)"):
        do("start_print", "2026-11-24T11:59:00Z", file="F1", spools="B1")
    do("start_print", NOON, file="F1", spools="B1")
    assert "up" in [f.kind for f in shop.snapshot().set_ups]


def test_a_start_names_what_does_not_match_and_can_be_recorded_anyway(shop, do):
    do("set_nozzle", EIGHT, printer="P1", nozzle="0.6")
    with pytest.raises(Refused, match=r"nozzle of 0.4 mm, head 1 of P1 has 0.6 mm"):
        do("start_print", NOON, file="F1", spools="B1")
    with pytest.raises(Refused, match=r"File F1 is for class «BIG»"):
        do("start_print", NOON, file="F1", printer="P2", spools="B1")
    do("set_nozzle", EIGHT, printer="P1", nozzle="0.4")
    with pytest.raises(Refused, match=r"Head 1 asks for ABS-BLACK, R1 is ABS-RED"):
        do("start_print", NOON, file="F1", spools="R1")
    do("start_print", NOON, file="F1", spools="R1", anyway="yes")
    assert feeds(shop)[0][0] == "R1"


def test_a_printer_that_must_be_watched_is_not_left_alone(shop, do):
    with pytest.raises(Refused, match="P2 is not marked to run unattended"):
        do("start_print", lines="HINGE", printer="P2", spools="B1", unattended="yes")


def test_a_start_without_a_spool_is_refused(shop, do):
    with pytest.raises(Refused, match="No spool is loaded on head 1 of P1"):
        do("start_print", file="F1")


def test_two_materials_draw_from_two_heads(shop, do):
    typed = {"lines": "HINGE", "material_2": "any TPU", "grams_2": "15", "printer": "P2"}
    with pytest.raises(Refused, match="This needs head 2, P1 has 1"):
        do("start_print", **{**typed, "printer": "P1"}, spools="B1, T1")
    do("start_print", NOON, **typed, spools="B1, T1")
    do("finish_print", SIX, grams_2="14")
    assert [(spool, mg, origin) for spool, _, _, mg, origin in feeds(shop)] == [
        ("B1", 100_000, FigureOrigin.ESTIMATE),
        ("T1", 14_000, FigureOrigin.TYPED),
    ]
    assert shop.check() == []


def test_all_pieces_are_good_by_default_and_single_ones_get_marks(running, do):
    assert do("finish_print", SIX) == "Finished print 1 «Shins»: 6 pieces."
    assert lots(running) == [
        (Side.LEFT, 1, Grade.GOOD, "FL07L-A"),
        (Side.RIGHT, 1, Grade.GOOD, "FL07R-A"),
        (Side.NONE, 4, Grade.GOOD, None),
    ]
    ended = job(running)
    assert (ended.ended_at, ended.real_minutes, ended.real_from) == (SIX, 600, FigureOrigin.ESTIMATE)
    assert feeds(running) == [("B1", EIGHT, SIX, 500_000, FigureOrigin.ESTIMATE)]
    assert running.check() == []


def test_pieces_come_out_as_told(running, do):
    do("finish_print", SIX, outcomes="FL07 L scrap, HINGE x2 second, HINGE x1 salvage", cause="warped")
    assert lots(running) == [
        (Side.RIGHT, 1, Grade.GOOD, "FL07R-A"),
        (Side.NONE, 1, Grade.GOOD, None),
        (Side.NONE, 2, Grade.SECOND, None),
        (Side.NONE, 1, Grade.SALVAGE, None),
    ]
    assert [(line.scrapped, line.cause) for line in running.snapshot().job_lines] == [(1, "warped"), (0, ""), (0, "")]
    assert running.check() == []


@pytest.mark.parametrize(
    ("outcomes", "said"),
    [("HINGE x5 scrap", "only 4 more in this print"), ("NEW scrap", "lays down no NEW")],
)
def test_outcomes_must_be_in_the_print(running, do, outcomes, said):
    with pytest.raises(BadWish, match=said):
        do("finish_print", SIX, outcomes=outcomes)


def test_a_print_can_come_out_as_the_other_side(shop, do):
    do("start_print", EIGHT, lines="FL07 L", printer="P1", spools="B1")
    do("finish_print", NOON, other_side="yes")
    assert lots(shop) == [(Side.RIGHT, 1, Grade.GOOD, "FL07R-A")]
    assert shop.check() == []


def test_marks_go_on_from_z_to_aa(shop, do):
    from buildlog.record.actions.making import letters

    assert [letters(n) for n in (1, 26, 27, 52, 53, 702, 703)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


def test_trials_make_no_pieces(shop, do):
    do("start_print", EIGHT, lines="HINGE", purpose="trial", printer="P1", spools="B1")
    do("finish_print", NOON)
    assert lots(shop) == []
    assert shop.check() == []


def test_typed_figures_must_fit_between_start_and_end(running, do):
    with pytest.raises(BadWish, match=r"11:00 h do not fit between start and end \(10:00 h\)"):
        do("finish_print", SIX, real_time="11 h")
    do("finish_print", SIX, real_time="9:40", grams="512", figures_from="from file")
    assert (job(running).real_minutes, job(running).real_from) == (580, FigureOrigin.FILE)
    assert feeds(running)[0][3:] == (512_000, FigureOrigin.FILE)


def test_an_end_before_the_start_is_refused(running, do):
    with pytest.raises(BadWish, match=r"it ended .* before it started"):
        do("finish_print", "2026-11-24T07:00:00Z")


def test_with_several_prints_running_one_must_be_named(running, do):
    do("start_print", NOON, lines="HINGE", printer="P2", spools="B2")
    with pytest.raises(BadWish, match=r"several are running: print 1 «Shins», print 2 «HINGE»"):
        do("finish_print", SIX)
    do("finish_print", SIX, printer="P2")
    assert job(running, 2).state is JobState.FINISHED


def test_a_failure_draws_by_the_time_it_laid_down(running, do):
    do("fail_print", SIX, stopped="2026-11-24T14:00:00Z", went_wrong="2026-11-24T13:00:00Z", cause="let go of bed")
    failed = job(running)
    assert (failed.state, failed.real_minutes, failed.stopped_at) == (JobState.FAILED, 360, "2026-11-24T14:00:00Z")
    assert feeds(running) == [("B1", EIGHT, "2026-11-24T14:00:00Z", 300_000, FigureOrigin.ESTIMATE)]
    assert lots(running) == []
    assert running.check() == []


def test_filament_that_ran_on_is_drawn_to_the_end(running, do):
    do("fail_print", SIX, went_wrong=NOON, stopped=NOON, ran_on="yes")
    assert feeds(running)[0][2:4] == (SIX, 500_000)


def test_typed_grams_of_a_failure_win(running, do):
    do("fail_print", SIX, stopped=NOON, grams="150")
    assert feeds(running)[0][3:] == (150_000, FigureOrigin.TYPED)


def test_what_was_laid_down_before_a_failure_may_be_kept(running, do):
    said = do("fail_print", SIX, stopped=NOON, outcomes="HINGE x3 good, FL07 L salvage")
    assert said.endswith(", 4 pieces kept, 2 scrapped.")
    assert lots(running) == [(Side.LEFT, 1, Grade.SALVAGE, "FL07L-A"), (Side.NONE, 3, Grade.GOOD, None)]
    assert [line.scrapped for line in running.snapshot().job_lines] == [0, 1, 1]
    assert running.check() == []


def test_a_failure_cannot_stop_before_it_went_wrong(running, do):
    with pytest.raises(BadWish, match=r"it stopped .* before it went wrong"):
        do("fail_print", SIX, went_wrong="2026-11-24T13:00:00Z", stopped=NOON)


def test_restarts_are_counted(running, do):
    do("restarted", "2026-11-24T08:20:00Z")
    do("restarted", "2026-11-24T08:40:00Z", printer="P1")
    assert job(running).restarts == 2


def test_a_swap_of_spools_shares_the_draw_by_time(running, do):
    do("swap_spool", NOON, spool="B2")
    assert feeds(running) == [
        ("B1", EIGHT, NOON, 200_000, FigureOrigin.ESTIMATE),
        ("B2", NOON, None, None, None),
    ]
    do("finish_print", "2026-11-24T16:00:00Z")
    assert [f[3] for f in feeds(running)] == [250_000, 250_000]
    assert running.check() == []


def test_typed_grams_of_a_swap_stay(running, do):
    do("swap_spool", NOON, spool="B2", grams="120")
    do("finish_print", SIX, grams="480")
    assert [f[3:] for f in feeds(running)] == [(120_000, FigureOrigin.TYPED), (360_000, FigureOrigin.TYPED)]
    assert sum(f.part_mg for f in running.snapshot().feeds) == 400_000


def test_a_swap_told_late_splits_what_was_drawn(running, do):
    do("finish_print", SIX)
    do("swap_spool", NOON, printer="P1", spool="B2")
    assert feeds(running) == [
        ("B1", EIGHT, NOON, 200_000, FigureOrigin.ESTIMATE),
        ("B2", NOON, SIX, 300_000, FigureOrigin.ESTIMATE),
    ]
    assert running.check() == []


@pytest.mark.parametrize("ending", ["finish_print", "fail_print"])
def test_a_print_cannot_end_before_its_spool_was_swapped(running, do, ending):
    do("swap_spool", NOON, spool="B2")
    with pytest.raises(BadWish, match="its spool was swapped Tue 24 Nov 13:00, after that: end it later"):
        do(ending, "2026-11-24T11:00:00Z")
    assert job(running).state is JobState.RUNNING
    do(ending, NOON)
    assert running.check() == []


def test_a_swap_to_another_material_or_the_same_spool_is_refused(running, do):
    with pytest.raises(Refused, match="R1 is ABS-RED"):
        do("swap_spool", NOON, spool="R1")
    with pytest.raises(BadWish, match="B1 is on that head already"):
        do("swap_spool", NOON, spool="B1")


def test_a_print_told_afterwards_needs_its_end(running, do):
    with pytest.raises(Refused, match=r"P1 runs print 1"):
        do("start_print", "2026-11-23T08:00:00Z", file="F1")
    do("finish_print", SIX)
    with pytest.raises(Refused, match=r"P1 ran print 1 .*: say when the one before it ended"):
        do("start_print", "2026-11-23T08:00:00Z", file="F1")
    do("start_print", "2026-11-23T08:00:00Z", file="F1", ended="2026-11-23T17:30:00Z")
    assert (job(running, 2).state, job(running, 2).ended_at) == (JobState.FINISHED, "2026-11-23T17:30:00Z")
    assert running.check() == []


def test_late_prints_that_overlap_are_refused_with_both_named(running, do):
    do("finish_print", SIX)
    with pytest.raises(Refused, match=r"P1 ran print 1 «Shins» from Tue 24 Nov 09:00 to Tue 24 Nov 19:00"):
        do("start_print", "2026-11-24T07:00:00Z", file="F1", ended="2026-11-24T08:01:00Z")
    do("start_print", "2026-11-24T07:00:00Z", file="F1", ended=EIGHT)


def test_an_end_in_the_future_is_refused(shop, do):
    with pytest.raises(InTheFuture):
        do("start_print", NOON, file="F1", spools="B1", ended="2026-12-24T12:00:00Z")


def test_a_spool_cannot_feed_two_prints_at_a_time(running, do):
    with pytest.raises(Refused, match=r"B1 fed print 1 «Shins» from .* until now"):
        do("start_print", NOON, lines="HINGE", printer="P2", spools="B1")


def test_what_a_part_needs_its_printer_can_or_a_person_says_that_it_did(shop, do):
    shop.record(Change("part", "HINGE", {"needs": "enclosed, flexible"}))
    with pytest.raises(MayOverrule, match="HINGE needs enclosed, flexible, which P1 cannot: name another") as refused:
        do("start_print", printer="P1", file="F1", spools="B1")
    assert refused.value.field == "anyway"
    shop.record(Change("printer", "P1", {"capabilities": "Flexible, enclosed"}))
    assert "P1 prints" in do("start_print", printer="P1", file="F1", spools="B1")


def test_a_print_that_no_spool_bears_is_refused_when_nobody_is_near_to_change_it(shop):
    short = StartPrint(file="F1", printer="P1", spools=("B1",), spools_short="B1: 90 g, needs 500 g: not enough")
    with pytest.raises(MayOverrule, match=r"No one spool bears this print \(B1: 90 g.*P1 does not stop"):
        shop.record(short)
    shop.record(Change("printer", "P1", {"stops_at_filament_end": True}))
    with pytest.raises(MayOverrule, match="nobody is near"):
        shop.record(replace(short, unattended=True))
    shop.record(replace(short, unattended=True, anyway=True))
    assert job(shop).state is JobState.RUNNING


def test_a_print_that_a_spool_bears_barely_or_that_somebody_watches_is_started(shop):
    shop.record(Change("printer", "P1", {"stops_at_filament_end": True}))
    shop.record(StartPrint(file="F1", printer="P1", spools=("B1",), spools_short="B1: 90 g, needs 500 g: not enough"))
    assert job(shop).state is JobState.RUNNING
