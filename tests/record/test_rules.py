"""Each rule can be broken behind the program's back, and `check` then says so."""

import sqlite3
from contextlib import closing

import pytest

from buildlog.record.rules import LOTS_RULE, RULES

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


OTHER_BUILD = (
    "INSERT INTO build (code, name, state, filming_rule, created_at) "
    "VALUES ('DC', 'Drum Cart', 'open', '', '2026-11-01T00:00:00Z')"
)
BUILD_BREACHES = {
    "a build has one root assembly": "UPDATE assembly SET parent_id = NULL WHERE code = 'TOE'",
    "an assembly hangs below the root of its own build": (
        "UPDATE assembly SET parent_id = (SELECT id FROM assembly WHERE code = 'TOE') WHERE code = 'LEG'"
    ),
    "no assembly is paired below one that is paired": "UPDATE assembly SET paired = 1 WHERE code = 'TOE'",
    "a position hangs under a position of the parent assembly": (
        "UPDATE position SET parent_id = NULL WHERE parent_id IS NOT NULL"
    ),
    "nothing waits for itself": (
        "INSERT INTO wait (assembly_id, step_id, on_assembly_id, on_step_id) "
        "SELECT a.assembly_id, a.id, b.assembly_id, b.id FROM step a, step b "
        "WHERE a.code = 'LEG-SAND' AND b.code = 'LEG-PAINT'"
    ),
    "a slot holds one thing at a time": (
        "INSERT INTO fitting (position_id, usage_id, number, what, stand_in, from_at, until_at, left_as_is) "
        "SELECT position_id, usage_id, number, 'tape', 1, from_at, '2030-01-01T00:00:00Z', 0 "
        "FROM fitting WHERE until_at IS NULL"
    ),
    "a piece stands in one slot at a time": (
        "INSERT INTO fitting (position_id, usage_id, number, lot_id, what, stand_in, from_at, until_at, left_as_is) "
        "SELECT position_id, usage_id, 9, lot_id, '', 0, from_at, '2030-01-01T00:00:00Z', 0 "
        "FROM fitting WHERE until_at IS NULL"
    ),
    "what stands in a slot is a lot of one": (
        "UPDATE lot SET quantity = 2 WHERE id = (SELECT lot_id FROM fitting WHERE until_at IS NULL)"
    ),
    "what stands in a slot stands in a slot of its usage": "UPDATE fitting SET number = 3 WHERE until_at IS NULL",
    "a piece is fitted and taken out as its entries say": "DELETE FROM lot_entry WHERE kind = 'taken out'",
    "nothing happens to a lot before it is made": "UPDATE lot SET made_at = '2026-11-25T00:00:00Z' WHERE mark <> ''",
    "a lot gives no more pieces than it holds": "UPDATE lot SET quantity = 2 WHERE parent_id IS NULL",
    "what is split off a lot becomes a lot": "DELETE FROM lot_entry WHERE kind = 'split off'",
    "a lot with a mark is one piece": "UPDATE lot SET mark = 'SHINL-X' WHERE quantity > 1",
    "a milestone that builds share is an event": (
        "INSERT INTO milestone (code, name, kind, due_at, hard) "
        "VALUES ('TRY', 'rehearsal', 'rehearsal', '2026-12-01T08:00:00Z', 1)"
    ),
    "a shot is of an episode and before a step of its own build": f"{OTHER_BUILD}; UPDATE shot SET build_id = 2",
    "a viewer asks and is answered in episodes of one build": f"{OTHER_BUILD}; UPDATE episode SET build_id = 2",
    "a lot never holds less than nothing": "UPDATE lot_entry SET pieces = 9 WHERE kind = 'missing'",
}


@pytest.fixture
def worked(request, once):
    """A finished print, one that runs, a queued one, and an order that has come."""

    def record():
        request.getfixturevalue("shop")
        do = request.getfixturevalue("do")
        do("start_print", EIGHT, lines="FL07 L, HINGE x4", printer="P1", spools="B1")
        do("finish_print", SIX)
        do("start_print", "2026-11-24T19:00:00Z", file="F1", printer="P1")
        do("queue_print", file="F1")
        do("place_order", lines="ABS-BLACK, SCREW x10")
        do("receive_order", order="O-01")

    return once("worked", record)


def test_a_record_kept_by_actions_breaks_no_rule(worked):
    assert worked.check() == []


@pytest.mark.parametrize("rule", BREACHES)
def test_a_breach_of_the_rule_is_reported(worked, rule):
    break_rule(worked, BREACHES[rule])
    assert any(f"«{rule}»" in said for said in worked.check())


@pytest.fixture
def built(request, once):
    """Shins counted, one fitted, one fitted and taken out again, one missing; a shot, a question of a viewer."""

    def record():
        request.getfixturevalue("legs")
        do = request.getfixturevalue("do")
        do("count_part", EIGHT, part="SHIN", side="L", pieces="5")
        for slot in ("LEG L / SHIN 1", "LEG L / SHIN 2"):
            do("fit_piece", "2026-11-24T09:00:00Z", slot=slot)
        do("take_out", "2026-11-24T10:00:00Z", slot="LEG L / SHIN 2")
        do("mark_missing", "2026-11-24T11:00:00Z", what="#1", pieces="1")
        do("plan_episode", "2026-11-24T11:00:00Z", build="LB", films_at="2026-11-24T12:00:00Z")
        do("plan_shot", what="the raw edge", step="LEG-SAND")
        do("viewer_asks", text="How heavy is it?")

    return once("built", record)


def test_a_build_kept_by_actions_breaks_no_rule(built):
    assert built.check() == []


@pytest.mark.parametrize("rule", BUILD_BREACHES)
def test_a_breach_in_the_build_is_reported(built, rule):
    break_rule(built, BUILD_BREACHES[rule])
    assert any(f"«{rule}»" in said for said in built.check())


def test_every_rule_has_a_breach():
    assert {rule for rule, _ in RULES} | {LOTS_RULE} == {*BREACHES, *BUILD_BREACHES}


def break_rule(ledger, statement):
    with closing(sqlite3.connect(ledger.path)) as connection:
        connection.executescript(statement)
        connection.commit()
