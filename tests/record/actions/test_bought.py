"""Bought items, counted in their unit or looked at roughly."""

import pytest

from buildlog.errors import Refused
from buildlog.terms import BoughtEntryKind, Level


def entries(ledger):
    return [(e.kind, e.amount, e.level) for e in ledger.snapshot().bought_entries]


def test_a_pack_comes_when_no_amount_is_named(shop, do):
    assert do("receive_bought", item="SCREW") == "Received 50 each of SCREW."
    assert entries(shop) == [(BoughtEntryKind.RECEIVED, 50, None)]


def test_counts_draws_and_returns_are_entries_of_their_own(shop, do):
    do("count_bought", item="SCREW", amount="0")
    do("draw_bought", item="SCREW", amount="4", why="jig")
    do("return_bought", item="SCREW")
    assert entries(shop) == [
        (BoughtEntryKind.COUNTED, 0, None),
        (BoughtEntryKind.DRAWN, 4, None),
        (BoughtEntryKind.RETURNED, 1, None),
    ]


def test_a_rough_item_has_plenty_when_it_comes(shop, do):
    do("set_level", item="GLUE", level="out")
    do("receive_bought", item="GLUE")
    assert entries(shop) == [(BoughtEntryKind.LEVEL, 0, Level.OUT), (BoughtEntryKind.LEVEL, 1, Level.PLENTY)]


@pytest.mark.parametrize("wish", ["count_bought", "draw_bought", "return_bought"])
def test_a_rough_item_is_not_counted(shop, do, wish):
    with pytest.raises(Refused, match="GLUE is not counted: say plenty, low or out"):
        do(wish, item="GLUE", amount="1")


def test_a_counted_item_has_no_level(shop, do):
    with pytest.raises(Refused, match="SCREW is counted"):
        do("set_level", item="SCREW", level="low")
