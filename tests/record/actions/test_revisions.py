"""What changes about a part, and what that does to pieces that stand somewhere."""

import pytest

from buildlog.errors import AlreadyThere, BadWish, Refused
from buildlog.terms import OldGoodFor, Stage

GOOD, STAND_INS, NO_GOOD = OldGoodFor.STILL_GOOD, OldGoodFor.STAND_INS, OldGoodFor.NO_GOOD


@pytest.fixture
def fitted(tell) -> None:
    """A shin stands in each leg."""
    for side in ("L", "R"):
        tell("count_part", part="SHIN", side=side, pieces="3")
        tell("fit_piece", slot=f"LEG {side} / SHIN")


def shin(ledger):
    return next(part for part in ledger.snapshot().parts if part.code == "SHIN")


def test_a_revision_takes_the_next_letter_and_keeps_figures_not_given(legs, tell) -> None:
    tell("revise", part="SHIN", what_changed="longer tab")
    tell("revise", part="SHIN", print_time="3h")
    letters = [(r.letter, r.print_minutes) for r in legs.snapshot().revisions_of[shin(legs).id]]
    assert letters == [("A", 120), ("B", 120), ("C", 180)]


def test_a_letter_is_used_once(legs, tell) -> None:
    with pytest.raises(AlreadyThere, match="revision of SHIN"):
        tell("revise", part="SHIN", revision="A")


def test_the_answer_holds_for_its_side(legs, tell) -> None:
    tell("revise", part="SHIN", old="no good", side="R", old_other="stand-ins")
    revision = legs.snapshot().revisions_of[shin(legs).id][-1]
    assert (revision.old_left, revision.old_right) == (STAND_INS, NO_GOOD)


def test_what_is_to_become_of_free_old_pieces_is_told(legs, tell) -> None:
    for side, pieces in (("L", "3"), ("R", "2")):
        tell("count_part", part="SHIN", side=side, pieces=pieces)
    said = tell("revise", part="SHIN", old="stand-ins", side="L", old_other="no good")
    assert "Free: 3 SHIN L to stand in; 2 SHIN R no good, to be scrapped." in str(said)
    tell("count_part", part="SHIN", side="R", pieces="4")  # two of the new revision
    assert "Free" not in str(tell("revise", part="TIP", old="no good"))
    assert "Free: 3 SHIN L to stand in; 2 SHIN R no good" in str(tell("revise", part="SHIN", old="still good"))


def test_only_still_good_keeps_a_part_proven(legs, tell) -> None:
    tell("revise", part="SHIN", old="still good")
    assert shin(legs).stage is Stage.PROVEN
    tell("revise", part="SHIN", old="stand-ins")
    assert shin(legs).stage is Stage.TRIAL
    tell("set_stage", part="SHIN", stage="proven")
    assert shin(legs).stage is Stage.PROVEN


def test_pieces_bonded_in_ask_for_an_answer_only_on_the_side_that_changes(legs, tell, fitted) -> None:
    tell("revise", part="SHIN", old="still good")
    with pytest.raises(Refused, match="SHIN is bonded in at LEG L / SHIN 1: say whether to remake, patch or leave"):
        tell("revise", part="SHIN", old="no good", side="L")


def test_remake_dates_the_position_and_leaves_the_old_one_standing(legs, tell, fitted) -> None:
    tell("revise", part="SHIN", old="no good", side="L", bonded="remake")
    snapshot = legs.snapshot()
    remade = [p for p in snapshot.positions if p.remade_at]
    assert [(p.side.value, p.remade_at) for p in remade] == [("L", legs.now())]
    assert all(f.until_at is None for f in snapshot.fittings)


def test_patch_empties_the_slot_and_owes_rework_there_alone(legs, tell, fitted) -> None:
    tell("revise", part="SHIN", old="no good", side="L", bonded="patch")
    assert [f.until_at is None for f in legs.snapshot().fittings] == [False, True]
    with pytest.raises(Refused, match="was not called for on LEG R"):
        tell("tick_step", step="LEG-RW1", place="LEG R")
    tell("tick_step", step="LEG-RW1", place="LEG L", overruled="yes")


def test_leave_marks_what_stands_there(legs, tell, fitted) -> None:
    tell("revise", part="SHIN", old="no good", bonded="leave")
    assert [f.left_as_is for f in legs.snapshot().fittings] == [True, True]


def test_a_matched_set_changes_whole_or_not_at_all(legs, tell, add) -> None:
    for code in ("PAWL", "WHEEL"):
        add("part", code=code, name=code, build="LB", matched_set="ratchet")
    with pytest.raises(Refused, match="revise it together with WHEEL"):
        tell("revise", part="PAWL")
    tell("revise", part="PAWL", together="WHEEL")
    assert [r.letter for r in legs.snapshot().revisions][-2:] == ["B", "B"]


def test_a_successor_takes_over_usages_fit_tests_and_slots(legs, tell, add, fitted) -> None:
    add("part", code="SHIN-2", name="Better shin", build="LB", handed="yes")
    with pytest.raises(Refused, match="bonded in"):
        tell("supersede", part="SHIN", by="SHIN-2")
    tell("supersede", part="SHIN", by="SHIN-2", bonded="leave")
    snapshot = legs.snapshot()
    old, new = (
        next(u for u in snapshot.usages if snapshot.part[u.part_id].code == code) for code in ("SHIN", "SHIN-2")
    )
    assert (old.ended_at, new.since_at, new.quantity) == (legs.now(), legs.now(), old.quantity)
    assert [f.stand_in for f in snapshot.fittings if f.usage_id == new.id and f.until_at is None] == [True, True]
    assert new.id in [link.usage_id for link in snapshot.fit_test_usages]
    assert shin(legs).superseded_by_id == new.part_id
    tell("take_out", slot="LEG L / SHIN-2")
    assert legs.check() == []


def test_a_bought_part_that_was_superseded_is_given_back_when_taken_out(legs, tell, add) -> None:
    add(
        "part",
        code="HINGE-2",
        name="Wider hinge",
        build="LB",
        origin="bought",
        bought_item="PIN",
        bought_quantity="1",
    )
    tell("fit_piece", slot="LEG L / HINGE")
    tell("supersede", part="HINGE", by="HINGE-2", bonded="leave")
    tell("take_out", slot="LEG L / HINGE-2")
    assert [(e.kind.value, e.amount) for e in legs.snapshot().bought_entries] == [("drawn", 2), ("returned", 2)]


@pytest.mark.parametrize(("by", "said"), [("TIP", "differ in being handed"), ("SHIN", "name another successor")])
def test_a_successor_must_fit(legs, tell, by, said) -> None:
    with pytest.raises(Refused, match=said):
        tell("supersede", part="SHIN", by=by)


def test_what_comes_apart_is_not_remade(legs, tell) -> None:
    with pytest.raises(Refused, match="comes apart"):
        tell("remake_position", place="TOE L.1")


def test_a_neutral_part_has_no_side_to_answer_for(legs, tell) -> None:
    with pytest.raises(BadWish, match="leave the side out"):
        tell("revise", part="TIP", old="no good", side="L")


def test_remaking_can_scrap_the_old_one(legs, tell, fitted) -> None:
    tell("remake_position", place="LEG L", old="scrap")
    left, right = legs.snapshot().fittings
    assert (left.until_at, right.until_at) == (legs.now(), None)


def test_a_remake_told_late_does_not_undo_a_later_one(legs, tell, fitted) -> None:
    tell("remake_position", place="LEG L")
    later = legs.now()
    tell("remake_position", at="2026-11-20T08:00:00Z", place="LEG L")
    assert next(p.remade_at for p in legs.snapshot().positions if p.remade_at) == later


def test_a_late_patch_ends_what_was_taken_out_later(legs, tell) -> None:
    tell("count_part", at="2026-11-10T08:00:00Z", part="SHIN", side="L", pieces="1")
    tell("fit_piece", at="2026-11-11T08:00:00Z", slot="LEG L / SHIN")
    tell("take_out", at="2026-11-20T08:00:00Z", slot="LEG L / SHIN")
    tell("revise", at="2026-11-15T08:00:00Z", part="SHIN", old="no good", bonded="patch")
    assert [f.until_at for f in legs.snapshot().fittings] == ["2026-11-15T08:00:00Z"]
    assert legs.check() == []


def test_a_part_typed_in_late_can_be_revised_at_an_earlier_moment(legs, tell, clock) -> None:
    before = clock.ago(days=40)
    tell("revise", at=before, part="SHIN", old="no good")
    assert [(r.letter, r.since_at) for r in legs.snapshot().revisions_of[shin(legs).id]] == [
        ("A", before),
        ("B", before),
    ]


def test_a_revision_told_after_a_later_one_says_which_stays_current(legs, tell, clock) -> None:
    tell("revise", at=clock.ago(days=2), part="SHIN")
    said = tell("revise", at=clock.ago(days=3), part="SHIN")
    assert "Revised SHIN to C" in said
    assert "B of Mon 23 Nov 13:00 stays current." in said
