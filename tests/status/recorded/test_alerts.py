"""What asks for an answer: orders first, then what to look at, then what comes later."""

import pytest

from buildlog.status.alerts import AlertLevel, alerts

EIGHT = "2026-11-25T08:00:00Z"


@pytest.fixture
def raised(stand):
    def found():
        there = stand()
        return [(a.level, a.text) for a in alerts(there.snapshot, there.now, there.accounts, there.stock)]

    return found


def test_a_quiet_workshop_raises_nothing(beetle, raised):
    assert raised() == []


def test_what_must_be_ordered_today_comes_first_with_its_basket(beetle, do, stand, raised):
    do("draw_filament", EIGHT, spool="B1", grams="900")
    level, text = raised()[0]
    assert (level, text) == (
        AlertLevel.ORDER_NOW,
        "order today at Filament by post, overdue since Sat 21 Nov: ABS-BLACK ×1",
    )
    there = stand()
    assert alerts(there.snapshot, there.now, there.accounts, there.stock)[0].basket == there.stock.baskets[0]


def test_nothing_is_overdue_while_only_the_reserve_is_touched(beetle, do, stand, raised):
    do("draw_filament", EIGHT, spool="B1", grams="500")
    assert stand().material("ABS-BLACK").runs_out_at is None
    assert raised()[0] == (AlertLevel.ORDER_NOW, "order today at Filament by post: ABS-BLACK ×1")


def test_a_parcel_that_should_have_come_is_asked_for(beetle, do, raised):
    do("place_order", "2026-11-10T08:00:00Z", code="O1", lines="ABS-RED x1", expected="2026-11-20T12:00:00Z")
    assert raised() == [(AlertLevel.LOOK, "order O1 was due on Fri 20 Nov: receive it, or ask")]


def test_a_balance_below_zero_asks_for_a_reading(beetle, do, raised):
    do("draw_filament", EIGHT, spool="R1", grams="1010")
    assert (AlertLevel.LOOK, "R1: -10 g by the record: weigh it") in raised()


def test_a_loaded_spool_that_lay_open_too_long_is_to_be_dried(beetle, do, raised):
    do("load_spool", "2026-11-20T12:00:00Z", printer="P2", spool="T1")
    assert raised() == [(AlertLevel.LOOK, "T1 has lain open for 5 days: dry it first")]


def test_a_printer_that_should_be_up_is_asked_about(beetle, do, raised):
    do("printer_down", EIGHT, printer="P1", why="belt", until="2026-11-25T10:00:00Z")
    assert raised() == [(AlertLevel.LOOK, "P1 should be up again: say so, or until when it is down")]
