"""Recording what a fit test found, and what it touched."""

import pytest

from buildlog.errors import BadWish, Refused

EIGHT, NINE, TOMORROW = "2026-11-20T08:00:00Z", "2026-11-20T09:00:00Z", "2026-11-21T09:00:00Z"


@pytest.fixture
def fitted(tell) -> None:
    """One shin stands in the left leg since eight o'clock."""
    tell("count_part", at=EIGHT, part="SHIN", side="L", pieces="3")
    tell("fit_piece", at=EIGHT, slot="LEG L / SHIN")


def result(ledger):
    return ledger.snapshot().fit_results[-1]


def test_a_result_keeps_what_it_touched_empty_slots_too(legs, tell, fitted) -> None:
    tell("record_fit", test="F-SHIN", place="LEG L", measured="0.4")
    first, second = legs.snapshot().fit_touches
    revision = legs.snapshot().lots[-1].revision_id
    assert (first.number, first.lot_id, first.revision_id, first.reworks) == (1, 2, revision, 0)
    assert (second.number, second.lot_id, second.part_id) == (2, None, None)


@pytest.mark.parametrize(("measured", "outcome"), [("0.3", "passed"), ("0.5", "passed"), ("0.29", "failed")])
def test_the_limits_tell_the_outcome(legs, tell, fitted, measured, outcome) -> None:
    then = {} if outcome == "passed" else {"what_then": "use as is"}
    tell("record_fit", test="F-SHIN", place="LEG L", measured=measured, **then)
    assert result(legs).outcome == outcome


def test_passed_and_outside_the_limits_contradict_each_other(legs, tell, fitted) -> None:
    with pytest.raises(BadWish, match=r"at least 0.3 mm and at most 0.5 mm was asked"):
        tell("record_fit", test="F-SHIN", place="LEG L", measured="0.6", outcome="passed")


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ({"outcome": "failed"}, "say what then"),
        ({"outcome": "passed", "what_then": "scrap"}, "leave this empty"),
        ({}, "say whether it passed or failed"),
        ({"outcome": "failed", "what_then": "rework", "scrap": "SHIN"}, "only what is to be reprinted"),
        ({"outcome": "failed", "what_then": "scrap", "scrap": "TIP"}, "touches no TIP"),
    ],
)
def test_a_result_that_does_not_say_enough_is_refused(legs, tell, fitted, texts, said) -> None:
    with pytest.raises(BadWish, match=said):
        tell("record_fit", test="F-SHIN", place="LEG L", **texts)
    assert legs.snapshot().fit_results == ()


def test_rework_is_owed_where_it_failed_and_counted_when_done(legs, tell, fitted) -> None:
    tell("record_fit", test="F-SHIN", place="LEG L", outcome="failed", what_then="rework")
    tell("tick_step", step="LEG-RW1", place="LEG L", overruled="yes")
    tell("record_fit", test="F-SHIN", place="LEG L", outcome="passed")
    assert [t.reworks for t in legs.snapshot().fit_touches if t.lot_id] == [0, 1]


def test_rework_called_for_again_reopens_the_step(legs, tell, fitted) -> None:
    for _ in range(2):
        tell("record_fit", test="F-SHIN", place="LEG L", outcome="failed", what_then="rework")
        tell("tick_step", step="LEG-RW1", place="LEG L", overruled="yes")
    assert [step.code for step in legs.snapshot().steps if step.kind == "rework"] == ["LEG-RW1"]


def test_what_failed_is_taken_out_and_scrapped_when_named(legs, tell, fitted) -> None:
    said = tell("record_fit", test="F-SHIN", place="LEG L", outcome="failed", what_then="reprint", scrap="SHINL-A")
    assert said == "F-SHIN on LEG L: failed. Scrapped SHINL-A."
    assert legs.snapshot().fittings[0].until_at == legs.now()


def test_the_only_piece_that_it_touches_is_reprinted_without_being_named(legs, tell, fitted) -> None:
    said = tell("record_fit", test="F-SHIN", place="LEG L", outcome="failed", what_then="reprint")
    assert said == "F-SHIN on LEG L: failed. Scrapped SHINL-A."
    assert legs.snapshot().fittings[0].until_at == legs.now()


def test_which_of_several_pieces_is_reprinted_is_asked(legs, tell, fitted) -> None:
    tell("fit_piece", at=EIGHT, slot="LEG L / SHIN 2")
    with pytest.raises(BadWish, match="say which: it touches SHINL-A, SHINL-B"):
        tell("record_fit", test="F-SHIN", place="LEG L", outcome="failed", what_then="scrap")
    tell("record_fit", test="F-SHIN", place="LEG L", outcome="failed", what_then="scrap", scrap="SHINL-B")
    assert [fitting.until_at is None for fitting in legs.snapshot().fittings] == [True, False]


def test_a_test_of_empty_slots_is_refused(legs, tell) -> None:
    with pytest.raises(Refused, match="Nothing stands in the slots of LEG R"):
        tell("record_fit", test="F-SHIN", place="LEG R", outcome="passed")


def test_pieces_that_were_tried_are_fitted_with_the_result(legs, tell) -> None:
    tell("count_part", part="SHIN", side="R", pieces="1")
    snapshot = legs.snapshot()
    leg = next(p.id for p in snapshot.positions if p.side == "R" and p.assembly_id == 2)
    shin = next(u.id for u in snapshot.usages if u.part_id == 1)
    tell("record_fit", given={"fits": ((leg, shin, 1, 1),)}, test="F-SHIN", place="LEG R", outcome="passed")
    assert legs.snapshot().fit_touches[0].lot_id == 1


def test_a_joint_is_not_loaded_before_its_time(legs, tell, fitted) -> None:
    tell("tick_step", at=EIGHT, step="LEG-SAND", place="LEG L")
    tell("tick_step", at=NINE, step="LEG-BOND", place="LEG L", overruled="yes")
    with pytest.raises(Refused, match="may be loaded from Sat 21 Nov 10:00 on"):
        tell("record_fit", at=NINE, test="F-LOAD", place="LEG L", outcome="passed")
    tell("record_fit", at=TOMORROW, test="F-LOAD", place="LEG L", outcome="passed")


def test_a_test_is_recorded_on_a_position_of_its_assembly(legs, tell) -> None:
    with pytest.raises(BadWish, match="name a position of its assembly"):
        tell("record_fit", test="F-SHIN", place="TOE L.1", outcome="passed")
