"""Files read again: what changed where."""

from typing import Any

import pytest

from buildlog.errors import Conflict
from buildlog.ledger import Ledger
from buildlog.proposals.nouns import Change, Retire
from buildlog.status.forms import form_of
from buildlog.terms import HeldBy

BOXES = "code,name,stands\nB1,grey,shelf\nB2,red,loft\n"


@pytest.fixture
def boxes(read: Any) -> None:
    read("boxes.csv", BOXES)


def name_and_place(ledger: Ledger) -> tuple[str, str]:
    form = form_of(ledger.snapshot(), "box", "B1")
    return form.name, form.place


def test_what_changed_in_the_file_only_is_taken(ledger: Ledger, read: Any, boxes: None) -> None:
    report = read("boxes.csv", BOXES.replace("grey", "blue"))
    assert [str(thing) for thing in report.plan.changed] == ["box B1 (name)"]
    assert report.plan.unchanged == 1
    assert name_and_place(ledger) == ("blue", "shelf")


def test_what_changed_in_the_ledger_only_is_left(ledger: Ledger, read: Any, boxes: None) -> None:
    ledger.record(Change("box", "B1", {"name": "green"}))
    report = read("boxes.csv", BOXES)
    assert ([str(thing) for thing in report.plan.left], report.group_id) == (["box B1 (name)"], None)
    assert name_and_place(ledger) == ("green", "shelf")


def test_different_fields_changed_on_both_sides_are_no_conflict(ledger: Ledger, read: Any, boxes: None) -> None:
    ledger.record(Change("box", "B1", {"name": "green"}))
    read("boxes.csv", BOXES.replace("shelf", "cellar"))
    assert name_and_place(ledger) == ("green", "cellar")
    ledger.record(Change("box", "B1", {"name": "blue"}))
    assert read("boxes.csv", BOXES.replace("shelf", "cellar")).group_id is None
    with pytest.raises(Conflict):
        read("boxes.csv", BOXES.replace("grey", "white"))


def test_what_changed_on_both_sides_is_a_listed_conflict_and_nothing_is_written(
    ledger: Ledger, read: Any, boxes: None
) -> None:
    ledger.record(Change("box", "B1", {"name": "green"}))
    changed = BOXES.replace("grey", "blue").replace("red", "pink")
    with pytest.raises(Conflict) as caught:
        read("boxes.csv", changed)
    words = "line 2, name: box B1 is «blue» in the file and «green» in the ledger (last read «grey»)"
    assert words in str(caught.value)
    assert form_of(ledger.snapshot(), "box", "B2").name == "red"
    assert len(read("boxes.csv", changed, dry_run=True).plan.conflicts) == 1


@pytest.mark.parametrize(("prefer", "name"), [(HeldBy.FILE, "blue"), (HeldBy.LEDGER, "green")])
def test_who_wins_can_be_said_and_then_holds(
    ledger: Ledger, read: Any, boxes: None, prefer: HeldBy, name: str
) -> None:
    ledger.record(Change("box", "B1", {"name": "green"}))
    read("boxes.csv", BOXES.replace("grey", "blue"), prefer=prefer)
    assert name_and_place(ledger)[0] == name
    assert read("boxes.csv", BOXES.replace("grey", "blue")).group_id is None


def test_the_same_change_on_both_sides_is_no_conflict(ledger: Ledger, read: Any, boxes: None) -> None:
    ledger.record(Change("box", "B1", {"name": "blue"}))
    assert read("boxes.csv", BOXES.replace("grey", "blue")).plan.conflicts == ()
    assert read("boxes.csv", BOXES.replace("grey", "blue")).group_id is None


def test_a_row_that_left_the_file_is_listed_and_stays_in_use(ledger: Ledger, read: Any, boxes: None) -> None:
    report = read("boxes.csv", "code,name,stands\nB2,red,loft\n")
    assert [str(thing) for thing in report.plan.missing] == ["box B1"]
    assert name_and_place(ledger) == ("grey", "shelf")


def test_another_file_does_not_make_rows_missing(read: Any, boxes: None) -> None:
    assert read("more-boxes.csv", "code,name\nB3,third\n").plan.missing == ()


def test_an_emptied_cell_sets_the_field_back(ledger: Ledger, read: Any, boxes: None) -> None:
    read("boxes.csv", BOXES.replace("shelf", ""))
    assert name_and_place(ledger) == ("grey", "")


def test_what_is_retired_in_the_ledger_is_not_brought_back_by_the_same_file(
    ledger: Ledger, read: Any, boxes: None
) -> None:
    ledger.record(Retire("box", "B1"))
    report = read("boxes.csv", BOXES)
    assert ([str(thing) for thing in report.plan.left], report.group_id) == (["box B1"], None)
    with pytest.raises(Conflict, match="no longer in use"):
        read("boxes.csv", BOXES.replace("grey", "blue"))
    read("boxes.csv", BOXES.replace("grey", "blue"), prefer=HeldBy.FILE)
    assert name_and_place(ledger) == ("blue", "shelf")


def test_a_thing_typed_before_the_first_reading_keeps_what_the_file_says_otherwise(
    ledger: Ledger, read: Any, add: Any
) -> None:
    add("box", code="B1", name="mine")
    with pytest.raises(Conflict, match="never read"):
        read("boxes.csv", BOXES)
    read("boxes.csv", BOXES.replace("grey", "mine"))
    assert name_and_place(ledger) == ("mine", "shelf")  # an empty field is filled


def test_what_stands_in_for_an_empty_cell_is_no_change(ledger: Ledger, read: Any) -> None:
    text = "code,name,polymer,density,smelly\nABS-W,white,ABS,,\n"
    read("materials.csv", text)
    assert form_of(ledger.snapshot(), "material", "ABS-W").density == 1050
    again = read("materials.csv", text)
    assert (again.group_id, again.plan.left, again.plan.unchanged) == (None, (), 1)


def test_a_moment_in_words_does_not_move_with_the_days(ledger: Ledger, read: Any, clock: Any) -> None:
    text = "code,name,kind,due\nEND,parade,event,+30d 17:00\n"
    read("milestones.csv", text)
    due = form_of(ledger.snapshot(), "milestone", "END").due
    clock.move_on(days=3)
    assert read("milestones.csv", text).group_id is None
    assert form_of(ledger.snapshot(), "milestone", "END").due == due
