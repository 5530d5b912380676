"""Which spools of a start do not bear it: told by their accounts, put into the wish before it is recorded."""

import pytest

from buildlog.proposals.prints import StartPrint
from buildlog.status.completing import completed
from buildlog.status.spools_short import spools_short
from buildlog.status.status import take_stock

EIGHT = "2026-11-25T08:00:00Z"


@pytest.fixture
def status(with_file, add):
    add("spool", "2026-11-01T08:00:00Z", code="B2", material="ABS-BLACK", tare="200")
    return lambda: take_stock(with_file.snapshot(), with_file.now())


def test_a_loaded_spool_that_does_not_bear_the_print_is_told(with_file, do, status):
    do("load_spool", EIGHT, printer="P1", spool="B1")
    assert spools_short(StartPrint(file="F1", printer="P1"), status()) == ""
    do("draw_filament", EIGHT, spool="B1", grams="900")
    assert spools_short(StartPrint(file="F1", printer="P1"), status()).startswith("B1: ")


def test_a_named_spool_is_looked_at_in_place_of_the_loaded_one(with_file, do, status):
    do("load_spool", EIGHT, printer="P1", spool="B1")
    do("draw_filament", EIGHT, spool="B1", grams="900")
    assert spools_short(StartPrint(file="F1", printer="P1", spools=("B2",)), status()) == ""


def test_a_start_is_completed_with_it_unless_it_is_of_another_moment_or_overruled(with_file, do, status):
    do("load_spool", EIGHT, printer="P1", spool="B1")
    do("draw_filament", EIGHT, spool="B1", grams="900")
    there = status()
    assert "not enough" in completed(StartPrint(file="F1", printer="P1"), there).spools_short
    assert completed(StartPrint(file="F1", printer="P1"), there, EIGHT).spools_short == ""
    assert completed(StartPrint(file="F1", printer="P1", anyway=True), there).spools_short == ""
