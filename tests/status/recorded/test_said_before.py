"""What is said of a start before it is recorded."""

from dataclasses import replace

import pytest

from buildlog.proposals.lines import Ask, Line
from buildlog.proposals.nouns import Change
from buildlog.proposals.prints import StartPrint
from buildlog.status.said_before import cautions_of, spools_in_question
from buildlog.status.spools_short import spools_short
from buildlog.status.status import take_stock

EIGHT = "2026-11-25T08:00:00Z"


@pytest.fixture
def doubts(with_file, do):
    """What is said of F1 (220 g) on P1, loaded with 110 g."""
    do("load_spool", EIGHT, printer="P1", spool="B1")
    do("weigh_spool", EIGHT, spool="B1", gross="310")  # on a reel of 200 g
    return lambda: spools_in_question(StartPrint(file="F1", printer="P1"), take_stock(with_file.snapshot(), EIGHT))


def test_a_spool_that_does_not_last_is_told_with_the_time_of_its_change(with_file, doubts):
    with_file.record(Change("printer", "P1", {"stops_at_filament_end": True}))
    half_way = "13:19"  # half of 8 h × 1.08 after 9:00 in Berlin
    assert doubts() == (f"110 g, needs 220 g: not enough, change it about {half_way}",)


def test_where_the_printer_does_not_wait_for_a_change_there_is_no_time_for_it(doubts):
    assert doubts() == ("110 g, needs 220 g: not enough",)


STARTS = {
    "a ready file": {"file": "F1"},
    "a queued print": {"job": 1},
    "typed lines": {"lines": (Line("SHIN", "L", 3),)},
    "a trial of some material": {"what": "a bracket", "purpose": "trial", "material": Ask("ABS-BLACK", None),
                                 "grams": 300_000, "print_time": 540},
}  # fmt: skip


@pytest.mark.parametrize("start", STARTS)
def test_fumes_and_a_spool_that_does_not_last_are_told_whatever_is_started(with_file, do, doubts, start):
    """Nothing is still to get once the file is queued: it is on nobody's list of files to start."""
    do("queue_print", file="F1", printer="P1")
    with_file.record(Change("printer", "P1", {"stops_at_filament_end": True}))
    status = take_stock(with_file.snapshot(), with_file.now())
    wish = StartPrint(printer="P1", **STARTS[start])
    assert cautions_of(wish, status) == ("styrene",)
    assert cautions_of(replace(wish, unattended=True), status) == ("unattended_print", "styrene")
    (doubt,) = spools_in_question(wish, status)
    assert "not enough, change it about" in doubt
    assert spools_short(wish, status).startswith("B1: ")


def test_a_polymer_that_does_not_smell_has_no_caution_of_fumes_unless_another_spool_is_named(with_file, add, do):
    add("material", code="PLA-RED", name="red", polymer="PLA")
    add("spool", code="P9", material="PLA-RED")
    status = take_stock(with_file.snapshot(), with_file.now())
    wish = StartPrint(printer="P1", what="a hook", purpose="other", material=Ask("PLA-RED", None), grams=1_000)
    assert cautions_of(replace(wish, spools=("P9",)), status) == ()
    assert cautions_of(replace(wish, spools=("B1",), anyway=True), status) == ("styrene",)


def test_typed_grams_are_looked_at_with_the_purge_of_the_file(with_file, doubts):
    status = take_stock(with_file.snapshot(), EIGHT)
    assert spools_in_question(StartPrint(file="F1", printer="P1", grams=60_000), status) == (
        "110 g, needs 80 g: tight",
    )
