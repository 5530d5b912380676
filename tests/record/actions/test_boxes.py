"""A box is counted against the book, and emptied into another, as one change."""

from typing import Any

import pytest

from buildlog.errors import BadWish, Refused
from buildlog.ledger import Ledger
from buildlog.proposals.boxes import CountBox, MoveContents
from buildlog.proposals.counted import Counted, read_counted, write_counted
from buildlog.proposals.lots import CountPart
from buildlog.proposals.nouns import Change
from buildlog.proposals.places import PiecesNamed


@pytest.fixture
def boxed(ledger: Ledger, add: Any, clock: Any) -> Ledger:
    """Five hinges and a spool on SHELF, two visors nowhere; HEAD is kept on SHELF."""
    add("build", code="LB", name="Beetle", at=clock.ago(days=9))
    add("box", code="SHELF", name="shelf", place="workshop", at=clock.ago(days=9))
    add("box", code="CRATE", name="crate", at=clock.ago(days=9))
    add("assembly", code="BEETLE", name="Beetle", build="LB", at=clock.ago(days=9))
    add("assembly", code="HEAD", name="Head", build="LB", parent="BEETLE", box="SHELF", at=clock.ago(days=9))
    add("part", code="VISOR", name="Visor", build="LB", assembly="HEAD", quantity="3", at=clock.ago(days=9))
    add("part", code="HINGE", name="Hinge", build="LB", assembly="BEETLE", at=clock.ago(days=9))
    add("material", code="ABS", name="ABS", polymer="ABS", at=clock.ago(days=9))
    add("spool", code="S1", material="ABS", box="SHELF", at=clock.ago(days=9))
    add("bought item", code="SCREW", name="Screw", stock="40", box="SHELF", at=clock.ago(days=9))
    ledger.record(CountPart(part="HINGE", pieces=5, box="SHELF"), clock.ago(days=8))
    ledger.record(CountPart(part="VISOR", pieces=2), clock.ago(days=8))
    return ledger


def lot(number: int) -> PiecesNamed:
    return PiecesNamed(lot_id=number)


def test_a_count_of_a_box_is_one_change_with_the_books_number_beside_each(boxed: Ledger) -> None:
    outcome = boxed.record(CountBox(box="SHELF", counted=(Counted(lot(1), 4), Counted("SCREW", 38))))
    assert "Counted 4 of #1 (HINGE), 5 were known." in outcome.sentences[0]
    assert {table for table, *_ in outcome.entries} == {"lot_entry", "bought_entry"}
    boxed.undo()
    assert boxed.snapshot().lot_entries == ()


def test_one_wrong_line_leaves_the_whole_count_unwritten(boxed: Ledger) -> None:
    with pytest.raises(Refused):
        boxed.record(CountBox(box="SHELF", counted=(Counted(lot(1), 4), Counted("SCROW", 38))))
    assert boxed.snapshot().lot_entries == ()


def test_a_count_that_names_nothing_is_refused(boxed: Ledger) -> None:
    with pytest.raises(BadWish, match="name what was counted"):
        boxed.record(CountBox(box="SHELF", counted=()))


def test_all_that_lies_in_a_box_goes_into_another_one(boxed: Ledger) -> None:
    outcome = boxed.record(MoveContents(box="SHELF", to="CRATE"))
    assert outcome.sentences == ("Moved 7 pieces, 1 spool, 1 bought item from SHELF to CRATE.",)
    snapshot = boxed.snapshot()
    crate = next(box.id for box in snapshot.boxes if box.code == "CRATE")
    moved = {entry.lot_id: (entry.pieces, entry.box_id) for entry in snapshot.lot_entries}
    assert moved == {1: (5, crate), 2: (2, crate)}  # the visors lay there by default
    assert (snapshot.spools[0].box_id, snapshot.bought_items[0].box_id) == (crate, crate)


def test_an_empty_box_and_the_same_box_are_refused(boxed: Ledger) -> None:
    with pytest.raises(Refused, match="CRATE is empty"):
        boxed.record(MoveContents(box="CRATE", to="SHELF"))
    with pytest.raises(BadWish, match="name another one"):
        boxed.record(MoveContents(box="SHELF", to="SHELF"))


def test_a_box_moves_with_all_in_it(boxed: Ledger) -> None:
    boxed.record(Change("box", "SHELF", {"place": "in the van"}))
    assert next(box.place for box in boxed.snapshot().boxes if box.code == "SHELF") == "in the van"


@pytest.mark.parametrize("text", ["#12 x3, FL07R-C x1, item SCREW-M4 x40", "#1 x0"])
def test_what_was_counted_is_written_as_it_is_read(text: str) -> None:
    assert write_counted(read_counted(text)) == text


@pytest.mark.parametrize("text", ["#12", "x3", "#12 x3 x", "#12 x99999999"])
def test_what_is_no_count_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"not understood|names no pieces|is no code|at most"):
        read_counted(text)
