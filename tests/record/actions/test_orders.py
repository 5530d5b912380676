"""Orders are placed, come in parts and close."""

import pytest

from buildlog.errors import AlreadyThere, BadWish, NotFound, Refused


def order(ledger, code="O-01"):
    (found,) = [o for o in ledger.snapshot().orders if o.code == code]
    return found


def test_an_order_gets_code_supplier_delivery_and_date_by_itself(shop, do):
    said = do("place_order", "2026-11-20T09:00:00Z", lines="ABS-BLACK x2, SCREW x100")
    assert said == "Placed order O-01: ABS-BLACK ×2, SCREW ×100 from SUP, expected Tue 24 Nov 10:00."
    placed = order(shop)
    assert (placed.expected_at, placed.delivery_minor) == ("2026-11-24T09:00:00Z", 490)
    assert [line.quantity for line in shop.snapshot().order_lines] == [2, 100]
    assert do("place_order", lines="TPU-RED").startswith("Placed order O-02")


def test_an_order_says_what_is_ordered_in_its_own_unit_and_from_whom(shop, do, add):
    add("bought item", code="CORD", name="Cord", unit="mm", pack_quantity="5000")
    said = do("place_order", lines="CORD x20000, TPU-RED, TPU-RED x2", supplier="SUP")
    assert said.startswith("Placed order O-01: CORD 20000 mm, TPU-RED ×1, TPU-RED ×2 from SUP, expected ")
    assert " from " not in do("place_order", lines="GLUE", expected="2028-01-01T11:00:00Z")


def test_a_day_of_another_year_is_said_with_its_year(shop, do):
    said = do("place_order", "2026-11-20T09:00:00Z", lines="ABS-BLACK", expected="2028-01-01T11:00:00Z")
    assert said == "Placed order O-01: ABS-BLACK ×1 from SUP, expected Sat 1 Jan 2028 12:00."


def test_more_packs_than_a_shelf_holds_are_not_ordered(shop, do):
    with pytest.raises(BadWish, match="at most 100 packs of a material"):
        do("place_order", lines="ABS-BLACK x999999")
    assert do("place_order", lines="SCREW x999999").startswith("Placed order")


def test_an_order_needs_a_known_thing_and_a_date(shop, do):
    with pytest.raises(NotFound, match="no material or bought item «NUT»"):
        do("place_order", lines="NUT x3")
    with pytest.raises(BadWish, match="say when it is expected"):
        do("place_order", lines="GLUE x3")
    with pytest.raises(BadWish, match="lies before the order itself"):
        do("place_order", lines="SCREW", expected="2026-11-01T09:00:00Z")


def test_a_taken_code_is_refused(shop, do):
    do("place_order", code="A7", lines="SCREW")
    with pytest.raises(AlreadyThere):
        do("place_order", code="A7", lines="SCREW")


def test_receiving_an_order_brings_spools_and_items_and_closes_it(shop, do):
    do("place_order", lines="ABS-BLACK x2, SCREW x100")
    assert do("receive_order", order="O-01") == (
        "Received ABS-BLACK-01, ABS-BLACK-02, 100 each of SCREW. Order O-01 is complete."
    )
    assert order(shop).closed_at == shop.now()
    assert shop.check() == []


def test_an_order_comes_in_parts_and_closes_with_the_last(shop, do):
    do("place_order", lines="ABS-BLACK x2, SCREW x100")
    do("receive_order", order="O-01", lines="ABS-BLACK x1")
    do("receive_bought", item="SCREW", order="O-01")
    assert order(shop).closed_at is None
    assert do("receive_spool", material="ABS-BLACK", order="O-01").endswith("Order O-01 is complete.")


def test_more_than_is_due_is_refused(shop, do):
    do("place_order", lines="ABS-BLACK x2")
    with pytest.raises(BadWish, match="2 of ABS-BLACK are due on order O-01"):
        do("receive_order", order="O-01", lines="ABS-BLACK x3")


def test_a_closed_order_receives_nothing(shop, do):
    do("place_order", lines="ABS-BLACK x2")
    assert do("close_order", order="O-01") == "Closed order O-01: what is due on 1 of its lines will not come."
    with pytest.raises(Refused, match="O-01 was closed"):
        do("receive_order", order="O-01")


def test_nothing_comes_before_it_was_ordered(shop, do):
    do("place_order", "2026-11-20T09:00:00Z", lines="SCREW")
    with pytest.raises(Refused, match="O-01 was placed Fri 20 Nov 10:00"):
        do("receive_order", "2026-11-19T09:00:00Z", order="O-01")


def test_a_parcel_that_has_not_come_is_expected_on_another_day(shop, do):
    do("place_order", "2026-11-20T08:00:00Z", code="O1", lines="ABS-BLACK x2")
    assert "is expected" in do("expect_order", order="O1", expected="2026-11-30T12:00:00Z")
    assert shop.snapshot().orders[0].expected_at == "2026-11-30T12:00:00Z"
    with pytest.raises(BadWish, match="before the order itself"):
        do("expect_order", order="O1", expected="2026-11-19T12:00:00Z")
