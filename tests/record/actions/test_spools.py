"""Spools come, are opened, weighed, dried, drawn from and emptied."""

import pytest

from buildlog.errors import AlreadyThere, BadWish, Refused


def spool(ledger, code):
    (found,) = [s for s in ledger.snapshot().spools if s.code == code]
    return found


def kinds(ledger, code):
    return [e.kind for e in ledger.snapshot().spool_entries if e.spool_id == spool(ledger, code).id]


def test_spools_get_the_next_free_codes_of_their_material(shop, do):
    assert do("receive_spool", material="ABS-BLACK", packs="2") == "Received ABS-BLACK-01, ABS-BLACK-02."
    assert do("receive_spool", material="ABS-BLACK") == "Received ABS-BLACK-03."


def test_typed_codes_are_kept_and_counted(shop, do):
    assert do("receive_spool", material="ABS-RED", codes="X1, X2") == "Received X1, X2."
    with pytest.raises(AlreadyThere):
        do("receive_spool", material="ABS-RED", codes="X2")
    with pytest.raises(BadWish, match="1 codes for 2 packs"):
        do("receive_spool", material="ABS-RED", packs="2", codes="X3")


def test_a_new_spool_is_full_sealed_and_its_tare_assumed(shop, do):
    do("receive_spool", material="ABS-RED", codes="X1", price="0")
    new = spool(shop, "X1")
    assert (new.content_mg, new.tare_assumed, new.price_minor) == (1_000_000, True, 0)
    assert new.received_at == shop.now()
    assert kinds(shop, "X1") == []


def test_a_weighed_reel_makes_the_tare_known(shop, do):
    do("receive_spool", material="ABS-RED", codes="X1", tare="198")
    assert (spool(shop, "X1").tare_mg, spool(shop, "X1").tare_assumed) == (198_000, False)


def test_a_reading_is_kept_as_read(shop, do):
    assert do("weigh_spool", spool="B1", gross="812.5").startswith("B1 weighs 812 g with its reel.")
    (entry,) = shop.snapshot().spool_entries
    assert entry.gross_mg == 812_500


def test_a_reading_below_the_lightest_reel_is_refused(shop, do):
    do("weigh_spool", spool="B1", gross="150")
    with pytest.raises(BadWish, match=r"149 g is less than the empty reel, .* at least 150 g"):
        do("weigh_spool", spool="B1", gross="149")


def test_a_reading_above_a_full_reel_is_refused(shop, do):
    with pytest.raises(BadWish, match="more than a full B1"):
        do("weigh_spool", spool="B1", gross="8125")


def test_a_spool_is_opened_and_sealed_in_turn(shop, do):
    do("open_spool", spool="B1")
    with pytest.raises(Refused, match="open already"):
        do("open_spool", spool="B1")
    do("seal_spool", spool="B1")
    with pytest.raises(Refused, match="sealed already"):
        do("seal_spool", spool="B1")
    assert kinds(shop, "B1") == ["opened", "sealed"]


def test_a_loaded_spool_is_not_sealed(shop, do):
    do("load_spool", printer="P1", spool="B1")
    with pytest.raises(Refused, match="loaded on head 1 of P1"):
        do("seal_spool", spool="B1")


def test_drying_takes_the_time_of_the_material(shop, do):
    assert do("dry_spool", spool="T1") == "Dried T1 for 4:00 h."
    assert do("dry_spool", spool="T1", time="90 min") == "Dried T1 for 1:30 h."


def test_an_emptied_spool_leaves_its_head_and_teaches_its_tare(shop, do):
    do("load_spool", printer="P1", spool="B1")
    do("empty_spool", spool="B1", reel="231")
    assert (spool(shop, "B1").tare_mg, spool(shop, "B1").tare_assumed) == (231_000, False)
    assert spool(shop, "B1").tare_pm_mg == 2_000  # a kitchen scale, common practice
    assert shop.snapshot().set_ups[-1].kind == "unloaded"
    with pytest.raises(Refused, match="B1 is empty since"):
        do("load_spool", printer="P1", spool="B1")


def test_a_spool_that_feeds_is_not_emptied(shop, do):
    do("start_print", file="F1", spools="B1")
    with pytest.raises(Refused, match="B1 feeds print 1"):
        do("empty_spool", spool="B1")


def test_a_draw_outside_a_print_opens_the_spool(shop, do):
    do("draw_filament", spool="B1", grams="12", why="test strip")
    assert kinds(shop, "B1") == ["opened", "drawn"]


def test_the_first_weighing_of_a_spool_on_an_assumed_reel_says_so_and_how_it_becomes_known(shop, do):
    do("receive_spool", material="ABS-BLACK", codes="B9")
    (spool,) = (spool for spool in shop.snapshot().spools if spool.code == "B9")
    about = f"{spool.tare_mg / 1000:.0f} g ± {spool.tare_pm_mg / 1000:.0f} g"
    first = do("weigh_spool", spool="B9", gross="900")
    assert first.endswith(
        f"The reel is assumed to weigh {about}: weigh an empty one like it and enter that as the tare of B9."
    )
    assert do("weigh_spool", spool="B9", gross="890") == "B9 weighs 890 g with its reel."
