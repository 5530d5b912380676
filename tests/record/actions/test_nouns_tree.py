"""The tree of a build and the positions that follow from it."""

import pytest

from buildlog.ledger import Ledger
from buildlog.status.forms import form_of


def standing(ledger: Ledger) -> list[tuple[str, str, int, int | None]]:
    """(assembly, side, ordinal, parent position) of the live positions."""
    snapshot = ledger.snapshot()
    codes = {row.id: row.code for row in snapshot.assemblies}
    return [
        (codes[p.assembly_id], p.side.value, p.ordinal, p.parent_id)
        for p in snapshot.positions
        if p.retired_at is None
    ]


def test_below_a_paired_assembly_the_side_is_inherited(ledger: Ledger, beetle: None) -> None:
    assert standing(ledger) == [
        ("BEETLE", "-", 1, None),
        ("LEG", "L", 1, 1),
        ("LEG", "R", 1, 1),
        ("TOE", "L", 1, 2),
        ("TOE", "L", 2, 2),
        ("TOE", "R", 1, 3),
        ("TOE", "R", 2, 3),
        ("HEAD", "-", 1, 1),
    ]


def test_the_count_of_a_paired_assembly_is_per_side(ledger: Ledger, beetle: None, add) -> None:
    add("assembly", code="WING", name="wing case", build="LB", parent="BEETLE", paired="yes", count="2")
    assert [p[1:3] for p in standing(ledger) if p[0] == "WING"] == [("L", 1), ("L", 2), ("R", 1), ("R", 2)]


def test_a_build_has_one_root(beetle: None, add, refused) -> None:
    assert "LB has its root already, BEETLE" in refused(add, "assembly", code="CART", name="cart", build="LB")


def test_the_parent_is_of_the_same_build(beetle: None, add, refused) -> None:
    add("build", code="DC", name="Drum Cart")
    text = refused(add, "assembly", code="WHEEL", name="wheel", build="DC", parent="LEG")
    assert "LEG is not of build DC" in text


def test_a_second_pair_on_the_way_from_the_root_is_refused_by_name(beetle: None, add, change, refused) -> None:
    text = refused(add, "assembly", code="CLAW", name="claw", build="LB", parent="TOE", paired="yes")
    assert "LEG above it is paired already" in text
    assert "LEG below it is paired already" in refused(change, "assembly", "BEETLE", paired=True)


def test_a_raised_count_adds_positions_at_every_parent_and_below(ledger: Ledger, beetle: None, change) -> None:
    change("assembly", "LEG", count=2)
    assert [p[1:3] for p in standing(ledger) if p[0] == "LEG"] == [("L", 1), ("R", 1), ("L", 2), ("R", 2)]
    assert sum(p[0] == "TOE" for p in standing(ledger)) == 8
    assert ledger.check() == []


def test_a_lowered_count_retires_the_highest_ordinals_and_all_below(ledger: Ledger, beetle: None, change) -> None:
    change("assembly", "LEG", count=3)
    change("assembly", "LEG", count=1)
    assert [p[:3] for p in standing(ledger) if p[0] == "LEG"] == [("LEG", "L", 1), ("LEG", "R", 1)]
    assert sum(p[0] == "TOE" for p in standing(ledger)) == 4
    change("assembly", "LEG", count=2)
    assert len(ledger.snapshot().positions) == 8 + 4 + 8  # those of ordinal 2 came back, none was made twice
    assert ledger.check() == []


@pytest.mark.parametrize("what", ["fitting", "step_done", "fit_result"])
def test_a_count_is_not_lowered_while_something_is_there(beetle: None, add, change, refused, write_row, what) -> None:
    add("bought item", code="PINS", name="pin")
    add("part", code="PIN", name="pin", build="LB", origin="bought", bought_item="PINS", assembly="TOE")
    add("step", code="GLUE", name="glue", assembly="TOE", kind="bond", bench_time="5")
    add("fit test", code="BENDS", name="bends", assembly="TOE", kind="motion")
    at = "2026-11-25T12:00:00Z"
    fact = {
        "fitting": {"usage_id": 1, "number": 1, "from_at": at},
        "step_done": {"step_id": 1, "at": at},
        "fit_result": {"fit_test_id": 1, "at": at, "outcome": "passed"},
    }[what]
    write_row(what, position_id=7, **fact)
    assert "TOE R.2 (" in refused(change, "assembly", "TOE", count=1)
    assert "TOE R.2 (" in refused(change, "assembly", "LEG", paired=False)


def test_what_was_taken_out_or_reopened_no_longer_holds_a_position(
    ledger: Ledger, beetle: None, add, change, write_row
):
    add("bought item", code="PINS", name="pin")
    add("part", code="PIN", name="pin", build="LB", origin="bought", bought_item="PINS", assembly="TOE")
    add("step", code="GLUE", name="glue", assembly="TOE", kind="bond", bench_time="5")
    at = "2026-11-25T12:00:00Z"
    write_row("fitting", position_id=7, usage_id=1, number=1, from_at=at, until_at=at)
    write_row("step_done", position_id=7, step_id=1, at=at, reopened_at=at)
    change("assembly", "TOE", count=1)
    assert sum(p[0] == "TOE" for p in standing(ledger)) == 2


def test_moving_an_assembly_lays_out_its_positions_anew(ledger: Ledger, beetle: None, change) -> None:
    change("assembly", "TOE", parent="HEAD")
    assert [p for p in standing(ledger) if p[0] == "TOE"] == [("TOE", "-", 1, 8), ("TOE", "-", 2, 8)]
    assert ledger.check() == []
    change("assembly", "TOE", parent="LEG")
    assert sorted(p[1:] for p in standing(ledger) if p[0] == "TOE") == [
        ("L", 1, 2),
        ("L", 2, 2),
        ("R", 1, 3),
        ("R", 2, 3),
    ]


def test_an_assembly_cannot_be_moved_below_itself(beetle: None, change, refused) -> None:
    assert "TOE is itself below LEG" in refused(change, "assembly", "LEG", parent="TOE")


def test_a_paired_assembly_cannot_be_moved_below_a_paired_one(beetle: None, add, change, refused) -> None:
    add("assembly", code="FEELER", name="feeler", build="LB", parent="HEAD", paired="yes")
    assert "LEG above it is paired" in refused(change, "assembly", "FEELER", parent="TOE")
    assert "LEG above and FEELER below are both paired" in refused(change, "assembly", "HEAD", parent="LEG")


def test_moving_is_refused_where_parts_would_lose_their_side(beetle: None, add, change, refused) -> None:
    add("part", code="CLAW", name="claw", build="LB", handed="yes", assembly="TOE")
    text = refused(change, "assembly", "TOE", parent="HEAD")
    assert "CLAW is handed and TOE has no side" in text


def test_more_slots_than_can_be_kept_are_refused_with_the_counts_that_multiply(
    beetle: None, add, change, refused
) -> None:
    change("assembly", "LEG", count=3)
    text = refused(add, "part", code="SCALE", name="scale", build="LB", assembly="TOE", quantity="10000")
    assert "LEG 3 × 2 sides × TOE 2 × 10000 each makes 120,000 slots" in text
    add("part", code="SCALE", name="scale", build="LB", assembly="TOE", quantity="5000")
    assert "LEG 6 × 2 sides makes 120,000 slots" in refused(change, "assembly", "LEG", count=6)


def test_more_positions_than_can_be_kept_are_refused_with_the_counts_that_multiply(
    beetle: None, add, change, refused
) -> None:
    add("assembly", code="HAIR", name="hair", build="LB", parent="HEAD", count="1000")
    text = refused(add, "assembly", code="TIP", name="tip", build="LB", parent="HAIR", count="101")
    assert "HAIR 1000 × TIP 101 makes 101,000 positions of TIP" in text


def test_a_lead_side_needs_a_paired_assembly_and_a_fit_of_its_own(ledger: Ledger, beetle: None, add, change, refused):
    add("part", code="FEMUR", name="femur", build="LB", handed="yes", assembly="LEG")
    add("part", code="CLAW", name="claw", build="LB", assembly="TOE")
    add("fit test", code="KNEE", name="knee", assembly="LEG", kind="motion")
    add("fit test", code="BENDS", name="bends", assembly="TOE", kind="motion")
    assert "BENDS is no fit test of LEG" in refused(change, "assembly", "LEG", lead_side="L", lead_test="BENDS")
    assert "lead_test: a lead side goes with the fit" in refused(change, "assembly", "LEG", lead_side="L")
    assert "not paired" in refused(change, "assembly", "TOE", lead_side="L", lead_test="BENDS")
    change("assembly", "LEG", lead_side="L", lead_test="KNEE")
    assert form_of(ledger.snapshot(), "assembly", "LEG").lead_test == "KNEE"


def test_an_assembly_is_retired_from_the_bottom_and_brought_back_with_its_positions(
    ledger: Ledger, beetle: None, retire, bring_back, refused
) -> None:
    assert "still needed by assembly TOE" in refused(retire, "assembly", "LEG")
    before = standing(ledger)
    retire("assembly", "TOE")
    assert all(p[0] != "TOE" for p in standing(ledger))
    bring_back("assembly", "TOE")
    assert standing(ledger) == before


def test_a_retired_root_makes_room_for_another_and_cannot_come_back_beside_it(
    add, retire, bring_back, refused
) -> None:
    add("build", code="LB", name="Lantern Beetle")
    add("assembly", code="OLD", name="old", build="LB")
    retire("assembly", "OLD")
    add("assembly", code="NEW", name="new", build="LB")
    assert "LB has its root already, NEW" in refused(bring_back, "assembly", "OLD")


def test_undoing_a_change_of_the_tree_puts_the_positions_back(ledger: Ledger, beetle: None, change) -> None:
    before = standing(ledger)
    change("assembly", "LEG", count=3)
    ledger.undo()
    assert standing(ledger) == before
