"""What stands on a thing, asked of the record."""

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.nouns import FORMS
from buildlog.record.actions.storing.standing_on import STANDING_ON, standing_on

AT = "2026-11-25T12:00:00Z"
WITHOUT = {"settings", "wait", "milestone", "goal", "shot", "promise", "viewer question"}  # nothing refers to these


def test_every_noun_that_something_refers_to_is_asked_about() -> None:
    assert set(STANDING_ON) == set(FORMS) - WITHOUT


@pytest.mark.parametrize("noun", sorted(STANDING_ON))
def test_nothing_stands_on_a_thing_that_is_not_there(ledger: Ledger, noun: str) -> None:
    with ledger.writer().work("test", "look", ledger.now(), ledger.now()) as opened:
        assert standing_on(opened.work, noun, 1) == ""


def test_a_printer_and_its_loaded_spool_hold_each_other(add, retire, refused, write_row, clock) -> None:
    add("material", code="ABS", name="black", polymer="ABS")
    add("spool", code="S1", material="ABS")
    add("printer", code="P1", name="one", bed_x="300", bed_y="300", bed_z="300")
    write_row("set_up", printer_id=1, at=AT, kind="loaded", head=1, spool_id=1)
    assert "still needed by loaded spool S1" in refused(retire, "printer", "P1")
    assert "still needed by printer P1" in refused(retire, "spool", "S1")
    write_row("set_up", printer_id=1, at=clock.move_on(hours=1), kind="unloaded", head=1)
    retire("spool", "S1")
    retire("printer", "P1")


def test_a_side_that_something_names_is_not_lost(beetle: None, add, change, retire, refused) -> None:
    add("milestone", code="PARADE", name="parade", kind="event", due="+9d", targets="TOE L")
    add("question", code="Q1", build="LB", text="?", holds="LEG R")
    assert "LEG would have no sides, and question Q1 names one" in refused(change, "assembly", "LEG", paired=False)
    retire("question", "Q1")
    assert "TOE would have no sides, and milestone PARADE" in refused(change, "assembly", "TOE", parent="HEAD")
