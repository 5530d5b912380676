"""What prints teach: only what was measured, failures early and late, grams between weigh-ins, the pace."""

import pytest

from buildlog.status.learning import learn
from buildlog.terms import Moment


@pytest.fixture
def learned(workshop):
    return lambda at=None: learn(workshop.snapshot(), Moment(at or workshop.now()))


def start(do, day, hours="10:00", printer="P1", **more):
    do("start_print", f"2026-11-{day:02d}T06:00:00Z", printer=printer, what="bracket", print_time=hours,
       material="ABS-BLACK", grams="100", spools="B1", purpose="other", estimate_from="slicing", **more)  # fmt: skip


def finish(do, day, hour=16, **more):
    do("finish_print", f"2026-11-{day:02d}T{hour:02d}:00:00Z", **more)


def test_nothing_printed_gives_the_usual_figures(learned):
    cell = learned().cell(1, ["ABS"], "slicing")
    assert (cell.usual, cell.starts, cell.ratios) == (True, 0, 0)
    assert (cell.ratio, cell.failures_per_hour) == (pytest.approx(1.08), 0.005)
    assert cell.bad_start_share == pytest.approx(0.0625)


def test_two_materials_in_one_print_fail_more_often_at_first(learned):
    assert learned().cell(2, ["ABS", "TPU"]).bad_start_share == pytest.approx(0.125)
    assert learned().cell(2, ["TPU"]).bad_start_share == pytest.approx(0.02)


def test_a_figure_taken_from_the_estimate_teaches_no_ratio(learned, do):
    start(do, 2)
    finish(do, 2)
    cell = learned().cell(1, ["ABS"], "slicing")
    assert (cell.starts, cell.ratios) == (1, 0)


def test_typed_hours_teach_the_ratio_of_the_program_that_estimated(learned, do):
    start(do, 2)
    finish(do, 2, 18, real_time="12:00")
    learning = learned()
    assert learning.cell(1, ["ABS"], "slicing").ratios == 1
    assert learning.cell(1, ["ABS"], "slicing").ratio > 1.08
    assert learning.cell(1, ["ABS"], "by hand").ratio == pytest.approx(1.08)


def test_a_failure_within_the_first_hour_is_a_failed_start(learned, do):
    start(do, 2)
    do("fail_print", "2026-11-02T06:50:00Z", cause="came off")
    start(do, 3)
    do("fail_print", "2026-11-03T12:00:00Z", cause="shifted")
    cell = learned().cell(1, ["ABS"])
    assert cell.bad_start_share == pytest.approx((10 * 0.0625 + 1) / 12)
    assert cell.failures_per_hour == pytest.approx((100 * 0.005 + 1) / (100 + 50 / 60 + 6))


def test_a_restart_counts_as_a_failed_start_and_a_start(learned, do):
    start(do, 2)
    do("restarted", "2026-11-02T06:30:00Z")
    finish(do, 2)
    assert learned().cell(1, ["ABS"]).starts == 2


def test_what_ended_later_does_not_teach_yet(learned, do):
    start(do, 2)
    finish(do, 2)
    assert learned("2026-11-02T15:59:00Z").cell(1, ["ABS"]).starts == 0


def test_grams_are_learned_between_two_weigh_ins_outside_prints(learned, do):
    do("weigh_spool", "2026-11-02T05:00:00Z", spool="B1", gross="1200")
    start(do, 2)
    finish(do, 2)
    do("weigh_spool", "2026-11-02T17:00:00Z", spool="B1", gross="1090")
    (grams,) = learned().grams.values()
    assert (grams.intervals, grams.usual) == (1, True)
    assert grams.ratio == pytest.approx(1.1 ** (1 / 11))  # one ratio against a weight of ten


def test_a_weigh_in_inside_a_print_teaches_no_grams(learned, do):
    do("weigh_spool", "2026-11-02T05:00:00Z", spool="B1", gross="1200")
    start(do, 2)
    do("weigh_spool", "2026-11-02T12:00:00Z", spool="B1", gross="1100")
    finish(do, 2)
    assert learned().grams == {}


def test_the_pace_is_the_mean_of_the_full_weeks_since_the_first_print(learned, do):
    for day in (2, 9, 10, 16):  # Mondays and a Tuesday; three full weeks, of 10, 20 and 10 hours
        start(do, day)
        finish(do, day)
    pace = learned().pace
    assert pace.usual is True  # the first week began before the first print
    start(do, 1, ended="2026-11-01T16:00:00Z")
    assert learned().pace.weekly_hours == (10, 20, 10)
    assert learned().pace.hours_per_week == pytest.approx(40 / 3)


def test_with_too_few_weeks_the_pace_is_the_share_of_the_week_times_printers_up(learned, do):
    assert learned().pace.hours_per_week == pytest.approx(168 * 0.6 * 2)
    do("printer_down", "2026-11-24T06:00:00Z", printer="P2")
    assert learned().pace.hours_per_week == pytest.approx(168 * 0.6)
