"""Print hours left: shares of ready files, failures, printers that can, what runs."""

import math

import pytest

from buildlog.terms import Side

EIGHT, NOON, SIX = "2026-11-25T08:00:00Z", "2026-11-25T12:00:00Z", "2026-11-25T18:00:00Z"


def expected(hours, rate=0.005, share=0.0625, loss=0.5):
    """The design's formula: (e^(λT) − 1)/λ + p·t₀·e^(λT)/(1 − p)."""
    grown = math.exp(rate * hours)
    return (grown - 1) / rate + share * loss * grown / (1 - share)


def test_without_prints_the_usual_ratio_and_failures_of_the_class_are_reckoned_with(beetle, stand):
    """ABS: 12.5 % of prints fail, half of them at the start; λ 0.005/h; real ÷ estimated 1.08 (common practice)."""
    piece = stand().piece("SHIN", "L")
    assert piece.estimated_minutes == 300
    assert piece.expected_minutes == pytest.approx(60 * expected(5 * 1.08))


def test_every_slot_to_print_bears_its_own_figure_where_there_is_no_file(beetle, stand):
    hours = stand().hours
    assert hours.total_minutes == pytest.approx(4 * 60 * expected(5 * 1.08), abs=1)
    assert hours.low_minutes < hours.total_minutes < hours.high_minutes
    assert hours.ready_file == {}


def test_a_slot_bears_its_share_by_grams_of_its_ready_file(with_file, stand):
    there = stand()
    piece = there.piece("SHIN", "L")
    assert piece.estimated_minutes == 240
    assert piece.expected_minutes == pytest.approx(60 * expected(8 * 1.08) / 2)
    assert there.hours.ready_file == {(piece.part_id, Side.LEFT): 1, (piece.part_id, Side.RIGHT): 1}


def test_a_file_of_an_older_revision_is_not_ready(with_file, do, stand):
    do("revise", part="SHIN", what_changed="thicker", old_left="no good", old_right="no good")
    assert stand().hours.ready_file == {}


def test_printers_that_can_are_told_with_their_minutes(with_file, stand):
    (only,) = stand().hours.sets
    assert only.printer_ids == (1,)
    assert (only.running_minutes, only.queued_minutes) == (0, 0)
    assert only.minutes == stand().hours.total_minutes


def test_a_printer_that_is_down_can_but_not_now(with_file, do, stand):
    do("printer_down", EIGHT, printer="P1", why="belt")
    piece = stand().piece("SHIN", "L")
    assert (piece.printer_ids, piece.up_printer_ids) == ((1,), ())


def test_a_part_too_big_for_every_bed_says_so(beetle, add, stand):
    add("part", code="SHELL", name="Shell", build="LB", assembly="BEETLE", length="450", width="20", height="50",
        print_time="3:00", stage="drawn")  # fmt: skip
    piece = stand().piece("SHELL")
    assert piece.printer_ids == ()
    assert piece.why_none == "P1: bed too small; P2: bed too small"


def test_a_long_narrow_part_lies_across_the_bed(beetle, add, stand):
    """The diagonal of 300 × 300 mm is 424 mm."""
    add("part", code="RIB", name="Rib", build="LB", assembly="BEETLE", length="400", width="20", height="50",
        print_time="3:00", stage="drawn")  # fmt: skip
    assert stand().piece("RIB").printer_ids == (1, 2)


def test_two_heads_and_capability_words_are_asked_of_a_printer(beetle, add, stand):
    two = {"material": "ABS-BLACK", "grams": "10", "material_2": "TPU-RED", "grams_2": "5"}
    add("part", code="SOLE", name="Sole", build="LB", assembly="BEETLE", print_time="1:00", stage="drawn", **two)
    add("part", code="VISOR", name="Visor", build="LB", assembly="BEETLE", print_time="1:00", needs="enclosed",
        stage="drawn")  # fmt: skip
    assert stand().piece("SOLE").printer_ids == (2,)
    assert stand().piece("VISOR").why_none == "P1: not enclosed; P2: not enclosed"


def test_a_part_too_high_and_one_for_another_nozzle_are_told_until_the_nozzle_is_changed(beetle, add, do, stand):
    for code, more in (("MAST", {"height": "450", "length": "20", "width": "20"}), ("MESH", {"nozzle": "0.6"})):
        add("part", code=code, name=code, build="LB", assembly="BEETLE", print_time="1:00", stage="drawn", **more)
    for printer in ("P1", "P2"):
        do("set_nozzle", EIGHT, printer=printer, nozzle="0.4")
    assert stand().piece("MAST").why_none == "P1: not high enough; P2: not high enough"
    assert stand().piece("MESH").why_none == "P1: nozzle 0.6 mm needed; P2: nozzle 0.6 mm needed"
    do("set_nozzle", NOON, printer="P2", nozzle="0.6")
    assert stand().piece("MESH").printer_ids == (2,)


def test_a_part_without_figures_is_named(beetle, add, stand):
    add("part", code="HORN", name="Horn", build="LB", assembly="BEETLE", stage="drawn")
    there = stand()
    assert there.hours.no_figures == ((there.piece("HORN").part_id, Side.NONE),)


def test_a_running_print_has_its_remaining_hours_and_may_still_fail(with_file, do, stand):
    """Anchor of the method: (1 − e^(−λR))·(1/λ + expected(T))."""
    do("start_print", EIGHT, file="F1", printer="P1", spools="B1")
    (running,) = stand().hours.running
    hours = 8 * 1.08
    left = hours - 4
    assert running.remaining_minutes == round(60 * left)
    fails = 1 - math.exp(-0.005 * left)
    assert running.expected_minutes == pytest.approx(60 * fails * (1 / 0.005 + expected(hours)), abs=1)
    assert running.past_end is False


def test_a_print_past_its_end_has_nothing_left(with_file, do, stand):
    do("start_print", "2026-11-25T01:00:00Z", file="F1", printer="P1", spools="B1")
    (running,) = stand().hours.running
    assert (running.past_end, running.remaining_minutes, running.expected_minutes) == (True, 0, 0)


def test_each_slot_counts_once_in_the_hours_of_its_position(with_file, do, stand):
    do("start_print", EIGHT, file="F1", printer="P1", spools="B1")
    hours = stand().hours
    assert round(sum(hours.position_minutes.values())) == hours.total_minutes


def print_f1(do, times):
    for day in range(1, 1 + times):
        do("start_print", f"2026-11-{day:02d}T08:00:00Z", file="F1", printer="P1", spools="B1")
        do("finish_print", f"2026-11-{day:02d}T17:00:00Z", printer="P1")


def test_what_usually_comes_on_top_is_usual_until_five_prints_are_done(with_file, do, stand):
    print_f1(do, 4)
    found = stand().hours.on_top
    assert (found.factor, found.prints, found.usual) == (1.5, 4, True)


def test_what_comes_on_top_is_the_hours_printed_to_those_in_place(with_file, do, stand):
    """Five prints made ten pieces, four of which lie against the four slots that there are."""
    print_f1(do, 5)
    found = stand().hours.on_top
    assert (found.factor, found.prints, found.usual) == (10 / 4, 5, False)


def test_pieces_that_were_only_counted_do_not_say_what_comes_on_top(with_file, do, stand):
    print_f1(do, 5)
    before = stand().hours.on_top
    do("count_part", "2026-11-20T08:00:00Z", part="SHIN", side="L", pieces="40")
    assert stand().hours.on_top == before
