"""What is on each printer, and what to put on so that it ends by the return."""

import pytest

from buildlog.status.machines import look_at_machines
from buildlog.terms import Moment

EIGHT, NOON = "2026-11-25T08:00:00Z", "2026-11-25T12:00:00Z"


@pytest.fixture
def machines(stand):
    def look(at=None):
        there = stand(at)
        return look_at_machines(there.snapshot, there.now, there.accounts, there.needs, there.hours)

    return look


@pytest.fixture
def short_file(with_file, add):
    """A second file, for the feet: 2 h; each foot is asked for twice."""
    add("part", code="FOOT", name="Foot", build="LB", assembly="BEETLE", quantity="2", print_time="1:00",
        material="ABS-BLACK", grams="30", stage="drawn")  # fmt: skip
    add("print file", code="F2", name="Feet", printer_class="BIG", lines="FOOT x2", print_time="2:00",
        material="ABS-BLACK", grams="60")  # fmt: skip
    return with_file


def test_a_running_print_is_told_with_its_end_and_its_spool(with_file, do, machines):
    do("start_print", EIGHT, file="F1", printer="P1", spools="B1")
    state = machines().printers[0]
    assert (state.code, state.is_free) == ("P1", False)
    assert state.running.ends_at == "2026-11-25T16:38:24Z"  # 8 h × 1.08
    assert state.spools[1].still_to_draw_mg == 110_000
    assert "SHIN" in state.job_name or state.job_name == "Shins"


def test_a_print_past_its_end_waits_to_be_taken_off(with_file, do, machines):
    do("start_print", "2026-11-25T01:00:00Z", file="F1", printer="P1", spools="B1")
    assert machines().printers[0].running.past_end is True


def test_a_printer_that_is_down_says_until_when_and_why(workshop, do, machines):
    do("printer_down", EIGHT, printer="P1", why="belt", until="2026-11-27T12:00:00Z")
    state = machines().printers[0]
    assert (state.down_text, state.is_free) == ("down until Fri 27 Nov: belt", False)


def test_a_printer_that_should_be_up_by_now_is_taken_to_be_up(workshop, do, machines):
    do("printer_down", EIGHT, printer="P1", why="belt", until="2026-11-25T10:00:00Z")
    assert machines().printers[0].is_free is True


def test_the_queue_names_what_is_next(with_file, do, machines):
    do("queue_print", file="F1", printer="P1")
    assert (machines().printers[0].next_job_id, machines().printers[1].next_job_id) == (1, None)


def test_a_window_offers_what_ends_by_the_return_longest_first(short_file, machines):
    all_day = machines().window(Moment(NOON), Moment("2026-11-25T22:00:00Z"))
    assert [offer.lines for offer in all_day] == ["SHIN L, SHIN R", "FOOT ×2"]
    assert [offer.ends_at for offer in all_day] == ["2026-11-25T20:38:00Z", "2026-11-25T14:10:00Z"]
    errand = machines().window(Moment(NOON), Moment("2026-11-25T15:00:00Z"))
    assert [offer.lines for offer in errand] == ["FOOT ×2"]
    assert machines().window(Moment(NOON), Moment("2026-11-25T13:00:00Z")) == ()


def test_a_printer_that_is_taken_when_leaving_is_left_out(short_file, do, machines):
    do("start_print", EIGHT, file="F2", printer="P1", spools="B1")
    assert machines(EIGHT).window(Moment("2026-11-25T09:00:00Z"), Moment("2026-11-25T22:00:00Z")) == ()
    later = machines(EIGHT).window(Moment("2026-11-25T11:00:00Z"), Moment("2026-11-25T22:00:00Z"))
    assert [offer.lines for offer in later] == ["SHIN L, SHIN R"]


def test_an_offer_tells_the_loaded_spool_and_what_the_print_needs(short_file, do, machines):
    do("load_spool", EIGHT, printer="P1", spool="B1")
    do("weigh_spool", EIGHT, spool="B1", gross="450")
    shins = next(offer for offer in machines().offers if offer.lines.startswith("SHIN"))
    assert shins.spool_text == "250 g, needs 220 g: tight"
    assert (shins.to_load, shins.carried, shins.helps) == (False, True, 2)
    assert shins.cautions == ("unattended_print", "styrene")


def test_every_caution_of_an_offer_is_one_that_the_program_has(short_file, machines):
    snapshot_cautions = machines().offers[0].cautions
    from buildlog.reference import reference

    assert all(key in reference().cautions for key in snapshot_cautions)


def test_the_likely_files_are_those_that_the_loaded_spool_carries_first(short_file, do, machines):
    do("load_spool", EIGHT, printer="P1", spool="B1")
    do("weigh_spool", EIGHT, spool="B1", gross="350")
    assert [offer.lines for offer in machines().likely(1)] == ["FOOT ×2", "SHIN L, SHIN R"]
    assert machines().likely(2) == ()


def test_what_is_made_is_no_longer_offered(short_file, do, machines):
    do("start_print", EIGHT, file="F2", printer="P1", spools="B1", ended="2026-11-25T10:00:00Z")
    assert [offer.lines for offer in machines().offers] == ["SHIN L, SHIN R"]


def test_a_file_of_nothing_but_held_pieces_is_not_offered(with_file, add, machines):
    add("part", code="HAND", name="Hand", build="LB", assembly="BEETLE", quantity="1", print_time="1:00",
        material="ABS-BLACK", grams="30", stage="drawn", handed="yes", lead_side="L",
        side_rule="one of each")  # fmt: skip
    for code, side in (("F3", "L"), ("F4", "R")):
        add("print file", code=code, name=code, printer_class="BIG", lines=f"HAND {side}", print_time="1:00",
            material="ABS-BLACK", grams="30")  # fmt: skip
    assert {offer.lines for offer in machines().offers} == {"SHIN L, SHIN R", "HAND L"}
