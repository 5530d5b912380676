"""Accounts of spools: readings kept as read, draws dated over their print, ± that grows, spools that lie open."""

import pytest

from buildlog.proposals.spools import WeighSpool
from buildlog.status.accounts import settle, spool_corrections, spool_history
from buildlog.status.completing import completed
from buildlog.status.status import take_stock
from buildlog.terms import Moment

MON, TUE, WED = "2026-11-23T{}:00Z", "2026-11-24T{}:00Z", "2026-11-25T{}:00Z"
EIGHT, NOON, SIX = TUE.format("08:00"), TUE.format("12:00"), TUE.format("18:00")


@pytest.fixture
def state(workshop):
    """``state("B1")``: the spool at a moment, now when left out."""

    def of(code: str, at: str | None = None):
        snapshot = workshop.snapshot()
        (spool,) = [s for s in snapshot.spools if s.code == code]
        return settle(snapshot, Moment(at or workshop.now())).spools[spool.id]

    return of


def print_of(do, start, grams, hours="10:00", ended="", **more):
    do("start_print", start, printer="P1", what="bracket", print_time=hours, material="ABS-BLACK", grams=grams,
       spools="B1", purpose="other", ended=ended, **more)  # fmt: skip


def test_a_new_spool_holds_what_it_came_with_and_is_sealed(state):
    new = state("B1")
    assert (new.net_mg, new.sealed, new.last_reading_at, new.opened_at) == (1_000_000, True, None, None)
    assert (new.still_to_draw_mg, new.flagged, new.usable, new.wet) == (0, "", True, False)


def test_a_reading_is_what_holds_from_its_moment_on(do, state):
    do("weigh_spool", NOON, spool="B1", gross="900")
    assert state("B1", EIGHT).net_mg == 1_000_000
    assert (state("B1").net_mg, state("B1").last_reading_at) == (700_000, NOON)


def test_a_correction_is_shown_with_both_figures(do, state, workshop):
    do("draw_filament", EIGHT, spool="B1", grams="250")
    do("weigh_spool", NOON, spool="B1", gross="900")
    (correction,) = spool_corrections(workshop.snapshot(), state("B1").spool_id, workshop.now())
    assert (correction.computed, correction.read, correction.difference) == (750_000, 700_000, -50_000)
    assert state("B1").correction == correction


def test_entries_come_before_readings_at_equal_moments(do, state):
    do("weigh_spool", NOON, spool="B1", gross="900")
    do("draw_filament", NOON, spool="B1", grams="50")
    assert state("B1").net_mg == 700_000


def test_a_running_print_has_drawn_in_proportion_to_time_and_will_draw_the_rest(do, state):
    print_of(do, EIGHT, "400")
    assert (state("B1", NOON).net_mg, state("B1", NOON).still_to_draw_mg) == (840_000, 240_000)
    assert (state("B1").net_mg, state("B1").still_to_draw_mg) == (600_000, 0)
    assert state("B1", NOON).free_mg == 600_000


def test_a_reading_inside_a_print_splits_its_draw_in_proportion_to_time(do, state):
    print_of(do, EIGHT, "400", ended=SIX)
    do("weigh_spool", NOON, spool="B1", gross="1000")
    assert state("B1").net_mg == 800_000 - 240_000
    assert state("B1").drawn_since_reading_mg == 240_000


def test_typed_grams_win_over_the_estimate(do, state):
    print_of(do, EIGHT, "400")
    do("finish_print", SIX, grams="380")
    assert state("B1").net_mg == 620_000


def test_the_margin_grows_with_the_grams_since_the_last_reading(do, state):
    do("weigh_spool", EIGHT, spool="B1", gross="1100")
    assert state("B1").pm_mg == 2_000
    do("draw_filament", NOON, spool="B1", grams="200")
    assert (state("B1").pm_mg, state("B1").low_mg) == (8_000, 692_000)


def test_an_assumed_tare_adds_its_own_margin(do, state):
    do("receive_spool", EIGHT, material="ABS-RED", codes="R2")
    do("weigh_spool", NOON, spool="R2", gross="900")
    assert state("R2").pm_mg == 2_000 + 65_000  # the usual tare of a plastic reel is 215 g, 150 to 280


def test_below_zero_is_taken_and_asks_for_a_reading(do, state):
    do("draw_filament", EIGHT, spool="B1", grams="700")
    do("draw_filament", NOON, spool="B1", grams="310")
    assert state("B1").net_mg == -10_000
    assert state("B1").flagged == "-10 g by the record: weigh it"


@pytest.mark.parametrize(("gross", "raised"), [("685", False), ("684", True), ("715", False), ("716", True)])
def test_a_weigh_in_alarms_beyond_fifteen_grams(do, state, gross, raised):
    """The larger of 15 g and 3 % of what was drawn since (common practice)."""
    do("weigh_spool", EIGHT, spool="B1", gross="1000")
    do("draw_filament", NOON, spool="B1", grams="300")
    do("weigh_spool", SIX, spool="B1", gross=gross)
    assert bool(state("B1").flagged) is raised


def test_a_weigh_in_after_much_was_drawn_alarms_beyond_three_percent(do, state):
    do("weigh_spool", EIGHT, spool="B1", gross="1200")
    do("draw_filament", NOON, spool="B1", grams="800")
    do("weigh_spool", SIX, spool="B1", gross="376")
    assert state("B1").flagged == ""
    do("weigh_spool", SIX, spool="B1", gross="351")
    assert "look for the cause" in state("B1").flagged


def test_an_assumed_tare_is_no_cause_for_alarm_at_the_first_weigh_in(do, state):
    do("receive_spool", EIGHT, material="ABS-RED", codes="R2")
    do("weigh_spool", NOON, spool="R2", gross="1160")
    assert state("R2").flagged == ""


def test_a_spool_taken_up_half_used_is_open_and_no_cause_for_alarm(do, state):
    do("weigh_spool", NOON, spool="B1", gross="640")
    taken_up = state("B1")
    assert (taken_up.net_mg, taken_up.flagged, taken_up.sealed, taken_up.opened_at) == (440_000, "", False, NOON)


def test_a_full_spool_that_was_weighed_stays_sealed(do, state):
    do("weigh_spool", NOON, spool="B1", gross="1195")
    assert (state("B1").sealed, state("B1").flagged) == (True, "")


def test_the_first_weigh_in_after_a_draw_alarms(do, state):
    do("draw_filament", EIGHT, spool="B1", grams="100")
    do("weigh_spool", NOON, spool="B1", gross="640")
    assert state("B1").flagged == "weighed 440 g where 900 g were expected: look for the cause"


def test_a_weigh_in_says_at_once_what_is_odd_about_it_unless_the_cause_is_told(workshop, do):
    do("draw_filament", EIGHT, spool="B1", grams="100")
    status, odd = take_stock(workshop.snapshot(), workshop.now()), WeighSpool(spool="B1", gross=640_000)
    told = workshop.record(completed(odd, status)).sentences[0]
    assert told == ("B1 weighs 640 g with its reel. It weighed 440 g where 900 g were expected: look for the cause.")
    known = completed(WeighSpool(spool="B1", gross=900_000, cause="printed for a neighbour"), status)
    assert workshop.record(known).sentences[0] == "B1 weighs 900 g with its reel."
    assert completed(WeighSpool(spool="B1", gross=1_105_000), status).surprise == ""


def test_an_emptied_spool_holds_nothing_and_is_of_no_use(do, state):
    do("empty_spool", NOON, spool="B1", reel="205")
    assert (state("B1").net_mg, state("B1").empty, state("B1").usable, state("B1").pm_mg) == (0, True, False, 0)


def test_a_spool_gets_wet_by_the_time_it_lies_open_and_dry_by_drying(do, state):
    do("open_spool", "2026-11-20T12:00:00Z", spool="T1")
    assert state("T1", "2026-11-21T12:00:00Z").wet is False
    assert state("T1").wet is True  # TPU bears one to two days
    do("dry_spool", WED.format("10:00"), spool="T1")
    assert (state("T1").wet, state("T1").dried_at, state("T1").open_minutes) == (False, WED.format("10:00"), 120)


def test_time_sealed_in_between_does_not_count_as_open(do, state):
    do("open_spool", MON.format("06:00"), spool="T1")
    do("seal_spool", MON.format("12:00"), spool="T1")
    do("open_spool", WED.format("10:00"), spool="T1")
    assert (state("T1").open_minutes, state("T1").sealed) == (6 * 60 + 2 * 60, False)


def test_loading_tells_where_a_spool_is_until_it_is_loaded_elsewhere(do, state, workshop):
    do("load_spool", EIGHT, printer="P1", spool="B1")
    assert state("B1").loaded_on == (1, 1)
    do("load_spool", NOON, printer="P2", head="2", spool="B1")
    assert (state("B1", EIGHT).loaded_on, state("B1").loaded_on) == ((1, 1), (2, 2))
    assert settle(workshop.snapshot(), workshop.now()).set_up[1].loaded == {}


def test_the_history_of_a_spool_ends_with_what_is_on_it_now(do, state, workshop):
    do("draw_filament", EIGHT, spool="B1", grams="100")
    do("weigh_spool", NOON, spool="B1", gross="1050")
    history = spool_history(workshop.snapshot(), state("B1").spool_id, workshop.now())
    assert [mg for _, mg in history] == [1_000_000, 900_000, 850_000, 850_000]
    assert history[-1] == (workshop.now(), state("B1").net_mg)
