"""Parts in assemblies: which side they take, and what a change may not take away."""

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.forms_build import Usage
from buildlog.status.forms import form_of, keys_of

AT = "2026-11-25T12:00:00Z"


@pytest.fixture
def parts(beetle: None, add) -> None:
    """The handed FEMUR and JAW, the neutral HORN and the bought PIN, nowhere used."""
    add("part", code="FEMUR", name="femur", build="LB", handed="yes")
    add("part", code="JAW", name="jaw", build="LB", handed="yes")
    add("part", code="HORN", name="horn", build="LB")
    add("bought item", code="PINS", name="pin", stock="50")
    add("part", code="PIN", name="pin", build="LB", origin="bought", bought_item="PINS")


@pytest.mark.parametrize("rule", ["as the position", "L only", "R only"])
@pytest.mark.parametrize("part", ["FEMUR", "HORN"])
def test_where_there_is_a_side_any_part_is_as_the_position_or_on_one_side(ledger: Ledger, parts, add, part, rule):
    add("usage", assembly="LEG", part=part, side_rule=rule)
    assert form_of(ledger.snapshot(), "usage", f"LEG/{part}").side_rule == rule


@pytest.mark.parametrize("part", ["FEMUR", "HORN"])
def test_one_of_each_is_refused_where_there_is_a_side(parts, add, refused, part) -> None:
    text = refused(add, "usage", assembly="TOE", part=part, side_rule="one of each")
    assert "TOE exists left and right: «one of each» is only for an assembly without a side" in text


def test_a_handed_part_where_there_is_no_side_names_one(parts, add, refused) -> None:
    text = refused(add, "usage", assembly="HEAD", part="JAW")
    assert "JAW is handed and HEAD has no side: say L only, R only or one of each" in text
    add("usage", assembly="HEAD", part="JAW", side_rule="one of each")


@pytest.mark.parametrize("rule", ["L only", "R only", "one of each"])
def test_a_neutral_part_where_there_is_no_side_takes_only_the_default(parts, add, refused, rule) -> None:
    text = refused(add, "usage", assembly="HEAD", part="HORN", side_rule=rule)
    assert "HORN is not handed and HEAD has no side" in text
    add("usage", assembly="HEAD", part="HORN")


def test_a_part_serves_its_own_build(parts, add, refused) -> None:
    add("build", code="DC", name="Drum Cart")
    add("assembly", code="CART", name="cart", build="DC")
    assert "HORN and CART are of two builds" in refused(add, "usage", assembly="CART", part="HORN")


def test_a_part_is_in_an_assembly_once(parts, add, refused) -> None:
    add("usage", assembly="LEG", part="FEMUR")
    assert "usage «LEG/FEMUR» is there already" in refused(add, "usage", assembly="LEG", part="FEMUR", quantity="2")


def test_a_part_that_loses_its_hands_is_refused_where_a_side_was_said(parts, add, change, refused) -> None:
    add("usage", assembly="HEAD", part="JAW", side_rule="one of each")
    assert "JAW is not handed and HEAD has no side" in refused(change, "part", "JAW", handed=False)


@pytest.mark.parametrize("values", [{"quantity": 1}, {"side_rule": "L only"}, {"assembly": "TOE"}, {"part": "HORN"}])
def test_a_slot_in_which_something_is_fitted_is_not_taken_away(
    parts, add, change, retire, refused, write_row, values
) -> None:
    add("usage", assembly="LEG", part="PIN", quantity="2")
    write_row("fitting", position_id=3, usage_id=1, number=2, from_at=AT)
    assert "PIN is fitted in LEG R" in refused(change, "usage", "LEG/PIN", **values)
    assert "still needed by piece fitted in LEG" in refused(retire, "usage", "LEG/PIN")
    change("usage", "LEG/PIN", quantity=5, spares=2)


def test_a_number_keeps_its_side_when_one_of_each_grows(parts, add, change, refused, write_row) -> None:
    add("usage", assembly="HEAD", part="JAW", side_rule="one of each", quantity="2")
    write_row("fitting", position_id=8, usage_id=1, number=2, what="stick", stand_in=True, from_at=AT)
    change("usage", "HEAD/JAW", quantity=3)
    change("usage", "HEAD/JAW", quantity=1)
    assert "JAW is fitted in HEAD" in refused(change, "usage", "HEAD/JAW", side_rule="L only")


def test_a_usage_that_ends_keeps_its_past_and_can_begin_again(ledger: Ledger, parts, add, retire, bring_back, clock):
    add("usage", assembly="LEG", part="FEMUR", spares="1")
    later = clock.move_on(days=1)
    retire("usage", "LEG/FEMUR")
    (usage,) = ledger.snapshot().usages
    assert (usage.since_at, usage.ended_at) == (AT, later)
    assert keys_of(ledger.snapshot(), "usage") == ()
    bring_back("usage", "LEG/FEMUR")
    assert form_of(ledger.snapshot(), "usage", "LEG/FEMUR") == Usage(assembly="LEG", part="FEMUR", spares=1)
    retire("usage", "LEG/FEMUR")
    add("usage", assembly="LEG", part="FEMUR")
    assert len(ledger.snapshot().usages) == 2


def test_a_usage_that_a_fit_touches_does_not_end(parts, add, retire, refused) -> None:
    add("usage", assembly="LEG", part="FEMUR")
    add("fit test", code="KNEE", name="knee", assembly="LEG", kind="motion")
    assert "still needed by fit test KNEE" in refused(retire, "usage", "LEG/FEMUR")
