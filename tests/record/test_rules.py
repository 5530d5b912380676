"""Each rule over prints and stock can be broken behind the program's back, and `check` then says so."""

import sqlite3
from contextlib import closing

import pytest

EIGHT, SIX = "2026-11-24T08:00:00Z", "2026-11-24T18:00:00Z"

BREACHES = {
    "prints on a printer do not overlap": "UPDATE job SET started_at = '2026-11-24T17:00:00Z' WHERE id = 2",
    "a print that has started has a printer": "UPDATE job SET printer_id = NULL WHERE id = 1",
    "pieces of a print are what it laid down for parts": "UPDATE lot SET side = 'R' WHERE mark = 'FL07L-A'",
    "every piece of an ended print for parts is kept or scrapped": "UPDATE lot SET quantity = 3 WHERE quantity = 4",
    "a print makes no more pieces than it lays down": "UPDATE lot SET quantity = 5 WHERE quantity = 4",
    "a print that has not ended has made nothing": "UPDATE job_line SET scrapped = 1 WHERE job_id = 2",
    "each head of a running print draws from one spool": "UPDATE feed SET spool_id = NULL WHERE job_id = 2",
    "an ended print draws no more, and what it drew is known": "UPDATE feed SET real_mg = NULL WHERE job_id = 1",
    "a print that has not started draws nothing": "UPDATE feed SET real_mg = 5 WHERE job_id = 3",
    "a print draws between its start and its end": "UPDATE feed SET to_at = '2026-11-24T18:01:00Z' WHERE job_id = 1",
    "a head of a print draws from one spool after the other": (
        "INSERT INTO feed (job_id, head, spool_id, from_at, to_at, part_mg, support_mg, purge_mg, real_mg) "
        "SELECT job_id, head, 2, from_at, to_at, 0, 0, 0, 0 FROM feed WHERE job_id = 1"
    ),
    "a spool feeds one head at a time": "UPDATE feed SET to_at = '2026-11-24T19:30:00Z' WHERE job_id = 1",
    "a spool is loaded in one place at a time": (
        "INSERT INTO set_up (printer_id, at, kind, head, spool_id, text) "
        "VALUES (2, '2026-11-24T09:00:00Z', 'loaded', 1, 1, '')"
    ),
    "no more comes on an order than was ordered": "UPDATE order_line SET quantity = 9 WHERE quantity = 10",
    "what comes on an order is what was ordered": "UPDATE spool SET material_id = 2 WHERE order_line_id IS NOT NULL",
    "what comes on an order is received, or a look at an item that is not counted": (
        "UPDATE bought_entry SET kind = 'returned'"
    ),
    "slots and steps draw bought items or give them back": (
        "INSERT INTO bought_entry (bought_item_id, at, kind, amount, fitting_id, cause) "
        "SELECT bought_item_id, at, kind, 0, 1, '' FROM bought_entry"
    ),
}


@pytest.fixture
def worked(shop, do):
    """A finished print, one that runs, a queued one, and an order that has come."""
    do("start_print", EIGHT, lines="FL07 L, HINGE x4", printer="P1", spools="B1")
    do("finish_print", SIX)
    do("start_print", "2026-11-24T19:00:00Z", file="F1", printer="P1")
    do("queue_print", file="F1")
    do("place_order", lines="ABS-BLACK, SCREW x10")
    do("receive_order", order="O-01")
    return shop


def test_a_record_kept_by_actions_breaks_no_rule(worked):
    assert worked.check() == []


@pytest.mark.parametrize("rule", BREACHES)
def test_a_breach_of_the_rule_is_reported(worked, rule):
    with closing(sqlite3.connect(worked.path)) as connection:
        connection.execute(BREACHES[rule])
        connection.commit()
    assert any(f"«{rule}»" in said for said in worked.check())
