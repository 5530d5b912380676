"""What is said of a start before it is recorded."""

import pytest

from buildlog.proposals.nouns import Change
from buildlog.proposals.prints import StartPrint
from buildlog.status.said_before import spools_in_question
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
