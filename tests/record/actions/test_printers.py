"""The set-up of printers as dated facts that never contradict each other."""

import pytest

from buildlog.errors import BadWish, Refused
from buildlog.terms import SetUpKind


def loads(ledger, kind=SetUpKind.LOADED):
    snapshot = ledger.snapshot()
    spools = {s.id: s.code for s in snapshot.spools}
    return [
        (snapshot.printer[f.printer_id].code, f.head, spools[f.spool_id], f.at)
        for f in snapshot.set_ups
        if f.kind is kind
    ]


def test_loading_a_spool_opens_it(shop, do):
    said = do("load_spool", printer="P1", spool="B1")
    (entry,) = shop.snapshot().spool_entries
    assert entry.kind == "opened"
    assert said == "Loaded B1 on head 1 of P1 (opened)."


def test_a_spool_loaded_elsewhere_leaves_its_old_head(shop, do):
    do("load_spool", "2026-11-20T08:00:00Z", printer="P1", spool="B1")
    do("load_spool", "2026-11-21T08:00:00Z", printer="P2", spool="B1", head="2")
    assert loads(shop, SetUpKind.UNLOADED) == [("P1", 1, "B1", "2026-11-21T08:00:00Z")]
    assert shop.check() == []


def test_a_late_load_ends_where_the_spool_is_known_to_have_gone(shop, do):
    do("load_spool", "2026-11-21T08:00:00Z", printer="P2", spool="B1")
    do("load_spool", "2026-11-20T08:00:00Z", printer="P1", spool="B1")
    assert loads(shop, SetUpKind.UNLOADED) == [("P1", 1, "B1", "2026-11-21T08:00:00Z")]
    assert shop.check() == []


def test_the_same_spool_is_not_loaded_twice(shop, do):
    do("load_spool", printer="P1", spool="B1")
    with pytest.raises(Refused, match=r"B1 is loaded on head 1 of P1 already"):
        do("load_spool", printer="P1", spool="B1")


def test_a_head_that_is_not_there_is_refused(shop, do):
    with pytest.raises(BadWish, match="P1 has 1, no head 2"):
        do("load_spool", printer="P1", spool="B1", head="2")


def test_a_spool_that_feeds_a_print_stays_where_it_is(shop, do):
    do("load_spool", "2026-11-20T08:00:00Z", printer="P1", spool="B1")
    do("start_print", "2026-11-20T09:00:00Z", file="F1")
    with pytest.raises(Refused, match=r"B1 feeds print 1 «Shins»"):
        do("load_spool", "2026-11-20T10:00:00Z", printer="P2", spool="B1")
    with pytest.raises(Refused, match=r"Head 1 of P1 feeds print 1 «Shins»"):
        do("load_spool", "2026-11-20T10:00:00Z", printer="P1", spool="B2")
    with pytest.raises(Refused, match=r"B1 feeds print 1 «Shins»"):
        do("unload_spool", "2026-11-20T10:00:00Z", printer="P1")


def test_a_spool_is_not_loaded_before_it_was_received(shop, do):
    with pytest.raises(Refused, match="B1 was received"):
        do("load_spool", "2026-10-20T08:00:00Z", printer="P1", spool="B1")


def test_unloading_an_empty_head_is_refused(shop, do):
    with pytest.raises(Refused, match="No spool is loaded on head 1 of P1"):
        do("unload_spool", printer="P1")


def test_nozzle_and_bed_are_kept_as_told(shop, do):
    do("set_nozzle", printer="P2", nozzle="0.6", head="2")
    do("set_bed", printer="P2", surface="textured sheet")
    facts = [(f.kind, f.head, f.nozzle_um, f.text) for f in shop.snapshot().set_ups][-2:]
    assert facts == [(SetUpKind.NOZZLE, 2, 600, ""), (SetUpKind.BED, 1, None, "textured sheet")]


def test_a_printer_that_is_not_down_cannot_come_up(shop, do):
    do("printer_down", "2026-11-20T08:00:00Z", printer="P1", why="belt", until="2026-11-22T08:00:00Z")
    do("printer_up", "2026-11-21T08:00:00Z", printer="P1")
    with pytest.raises(Refused, match="P1 is not down"):
        do("printer_up", "2026-11-21T09:00:00Z", printer="P1")


def test_it_is_not_down_until_a_time_before_it_went_down(shop, do):
    with pytest.raises(BadWish, match="lies before"):
        do("printer_down", "2026-11-20T08:00:00Z", printer="P1", until="2026-11-19T08:00:00Z")
