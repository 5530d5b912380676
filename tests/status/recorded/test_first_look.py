"""What few rows tell of the printers is what all of them tell (in any order: tests/record/test_any_order.py)."""

from datetime import UTC, datetime

import pytest

from buildlog.facts.snapshot import Snapshot
from buildlog.proposals.nouns import Retire
from buildlog.status.first_look import look_first
from buildlog.status.on_printers import OnPrinter
from buildlog.status.status import take_stock


@pytest.fixture
def seen(ledger):
    """The printers by code, from few rows; the same as from all of them."""

    def look() -> dict[str, OnPrinter]:
        first = look_first(ledger.of_printers(ledger.now()), ledger.now())
        whole = take_stock(ledger.snapshot(), ledger.now()).machines.printers
        for few, all_of_it in zip(first.printers, whole, strict=True):
            told = {name: getattr(all_of_it, name) for name in ("code", "job_id", "job_name", "since", "set_up")}
            assert {name: getattr(few, name) for name in told} == told
            assert (few.spools, few.down_text, few.is_free) == (
                all_of_it.spools, all_of_it.down_text, all_of_it.is_free,
            )  # fmt: skip
        return {printer.code: printer for printer in first.printers}

    return look


def test_a_print_its_spool_and_what_it_has_drawn_so_far(with_file, do, seen):
    do("start_print", "2026-11-25T08:00:00Z", file="F1", printer="P1", spools="B1")
    there = seen()["P1"]
    assert (there.job_name, there.since, there.is_free) == ("Shins", "2026-11-25T08:00:00Z", False)
    assert there.spools[1].free_mg == 780_000  # 1000 g less 220 g, half of them still to draw


def test_a_spool_is_where_it_was_loaded_last(workshop, do, seen):
    do("load_spool", "2026-11-20T08:00:00Z", printer="P1", spool="B1")
    do("load_spool", "2026-11-21T08:00:00Z", printer="P2", spool="R1", head="1")
    do("load_spool", "2026-11-22T08:00:00Z", printer="P2", spool="B1", head="2")
    assert seen()["P1"].spools == {}
    assert {*seen()["P2"].spools} == {1, 2}
    do("unload_spool", "2026-11-23T08:00:00Z", printer="P2", head="2")
    assert {*seen()["P2"].spools} == {1}


def test_a_print_past_its_end_has_drawn_all_and_is_still_on(with_file, do, seen):
    do("start_print", "2026-11-24T08:00:00Z", file="F1", printer="P1", spools="B1")
    there = seen()["P1"]
    assert there.job_name == "Shins"
    assert (there.spools[1].net_mg, there.spools[1].still_to_draw_mg) == (780_000, 0)


def test_what_is_recorded_for_later_than_the_clock_shows_is_not_there_yet(workshop, do, seen, clock):
    do("load_spool", "2026-11-20T08:00:00Z", printer="P1", spool="B1")
    do("load_spool", "2026-11-24T08:00:00Z", printer="P1", spool="R1")
    clock.shows = datetime(2026, 11, 22, tzinfo=UTC)  # it was set back
    (spool,) = seen()["P1"].spools.values()
    assert spool.spool_id == next(s.id for s in workshop.snapshot().spools if s.code == "B1")


def test_a_printer_that_is_down_or_retired(workshop, do, seen):
    do("printer_down", "2026-11-24T08:00:00Z", printer="P2", why="belt", until="2026-11-27T08:00:00Z")
    assert seen()["P2"].down_text == "down until Fri 27 Nov: belt"
    workshop.record(Retire("printer", "P1"))
    assert "P1" not in seen()


def test_few_rows_are_read_of_a_demo_of_many(demo):
    few, whole = demo.of_printers(demo.now()), demo.snapshot()
    for name in ("spool_entries", "feeds", "jobs", "parts", "lots"):
        assert len(getattr(few, name)) < len(getattr(whole, name)) / 3, name
    assert isinstance(few, Snapshot)
    told = look_first(few, demo.now()).printers
    machines = take_stock(whole, demo.now()).machines.printers
    assert [(p.code, p.job_name, p.spools) for p in told] == [(m.code, m.job_name, m.spools) for m in machines]
