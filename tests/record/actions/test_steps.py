"""Ticking bench work in its order."""

import pytest

from buildlog.errors import BadWish, Refused
from buildlog.proposals.places import read_place
from buildlog.proposals.steps import TickStep, TickSteps
from buildlog.status.completing import completed
from buildlog.status.status import take_stock
from buildlog.terms import Moment

EIGHT, NINE, TEN = (f"2026-11-20T{hour}:00:00Z" for hour in ("08", "09", "10"))
NOON = "2026-11-20T12:00:00Z"


def test_a_step_waits_for_the_one_before(legs, tell) -> None:
    with pytest.raises(Refused, match="«Sand» \\(LEG-SAND\\) is to be done first"):
        tell("tick_step", step="LEG-PAINT", place="LEG L")


def test_a_step_waits_for_a_step_on_its_own_side(legs, add, tell) -> None:
    add("assembly", code="CASE", name="Wing case", build="LB", parent="BEETLE", paired="yes")
    add("step", code="CASE-DRILL", name="Drill", assembly="CASE", kind="drill", bench_time="10")
    add("wait", assembly="CASE", step="CASE-DRILL", on_assembly="LEG", on_step="LEG-SAND")
    tell("tick_step", step="LEG-SAND", place="LEG R")
    with pytest.raises(Refused, match=r"is not open at .*: it waits for LEG L \(Sand\)"):
        tell("tick_step", step="CASE-DRILL", place="CASE L")
    tell("tick_step", step="CASE-DRILL", place="CASE R")
    tell("tick_step", step="CASE-DRILL", place="CASE L", overruled="yes")
    assert [tick.overruled for tick in legs.snapshot().steps_done] == [False, False, True]


def test_a_step_waits_until_all_work_on_another_assembly_is_done(legs, add, tell) -> None:
    add("assembly", code="CASE", name="Wing case", build="LB", parent="BEETLE", paired="yes")
    for code in ("CASE-DRILL", "CASE-WIRE"):
        add("step", code=code, name=code, assembly="CASE", kind="drill", bench_time="10")
    add("wait", assembly="LEG", step="LEG-SAND", on_assembly="CASE")
    tell("tick_step", step="CASE-DRILL", place="CASE L")
    with pytest.raises(Refused, match="it waits for CASE L \\(CASE-WIRE\\)"):
        tell("tick_step", step="LEG-SAND", place="LEG L")
    tell("tick_step", step="CASE-WIRE", place="CASE L")
    tell("tick_step", step="LEG-SAND", place="LEG L")


def test_the_first_joint_names_empty_slots_and_can_be_overruled(legs, tell) -> None:
    tell("tick_step", step="LEG-SAND", place="LEG L")
    with pytest.raises(Refused, match="empty: LEG L / SHIN 1, LEG L / SHIN 2, LEG L / HINGE"):
        tell("tick_step", step="LEG-BOND", place="LEG L")
    tell("tick_step", step="LEG-BOND", place="LEG L", overruled="yes")
    assert [tick.overruled for tick in legs.snapshot().steps_done] == [False, True]


def test_an_empty_slot_before_a_joint_says_how_to_model_what_is_joined_without_it(legs, tell) -> None:
    tell("tick_step", step="LEG-SAND", place="LEG L")
    with pytest.raises(Refused) as refused:
        tell("tick_step", step="LEG-BOND", place="LEG L")
    assert "add an assembly below LEG for those that are, and move them and this step into it" in str(refused.value)
    with pytest.raises(Refused) as refused:
        tell("tick_step", step="LEG-PAINT", place="LEG R")
    assert "add an assembly" not in str(refused.value)


def test_an_overruled_joint_fits_what_lies_ready_and_leaves_the_other_slots_empty(legs, tell) -> None:
    tell("count_part", at=EIGHT, part="SHIN", side="L", pieces="1")
    tell("tick_step", at=EIGHT, step="LEG-SAND", place="LEG L")
    wish = TickStep(step="LEG-BOND", place=read_place("LEG L"), overruled=True)
    said = legs.record(completed(wish, take_stock(legs.snapshot(), Moment(NOON)), Moment(NINE)), Moment(NINE))
    assert said.sentences == ("Done: «Bond» on LEG L. Fitted SHINL-A.",)
    assert [(f.number, f.from_at) for f in legs.snapshot().fittings] == [(1, NINE)]


def test_a_step_waits_until_what_was_bonded_can_be_handled(legs, tell) -> None:
    tell("tick_step", at=EIGHT, step="LEG-SAND", place="LEG L")
    tell("tick_step", at=NINE, step="LEG-BOND", place="LEG L", overruled="yes")
    with pytest.raises(Refused, match="may be handled from Fri 20 Nov 12:00 on"):
        tell("tick_step", at=TEN, step="LEG-PAINT", place="LEG L")
    tell("tick_step", at=NOON, step="LEG-PAINT", place="LEG L")


def test_ticking_a_joint_fits_the_allotted_pieces_and_uses_up_what_it_takes(legs, tell) -> None:
    tell("count_part", at=EIGHT, part="SHIN", side="L", pieces="3")
    tell("tick_step", at=EIGHT, step="LEG-SAND", place="LEG L")
    shin = next(u.id for u in legs.snapshot().usages if u.part_id == 1)
    fits = {"fits": ((shin, 1, 1), (shin, 2, 1))}
    said = tell("tick_step", at=NINE, given=fits, step="LEG-BOND", place="LEG L", overruled="yes", real_time="0:35")
    assert said == "Done: «Bond» on LEG L in 0:35 h. Fitted SHINL-A, SHINL-B."
    snapshot = legs.snapshot()
    assert [(f.number, f.from_at) for f in snapshot.fittings] == [(1, NINE), (2, NINE)]
    assert [(e.amount, e.step_done_id) for e in snapshot.bought_entries] == [(3, 2)]


def test_a_piece_that_is_no_longer_free_is_not_fitted(legs, tell) -> None:
    tell("count_part", part="SHIN", side="L", pieces="1")
    tell("tick_step", step="LEG-SAND", place="LEG L")
    shin = next(u.id for u in legs.snapshot().usages if u.part_id == 1)
    tell("scrap_pieces", what="#1")
    with pytest.raises(Refused, match="not free for LEG L / SHIN 1 any more"):
        tell("tick_step", given={"fits": ((shin, 1, 1),)}, step="LEG-BOND", place="LEG L", overruled="yes")
    assert legs.snapshot().fittings == ()


def test_a_step_is_done_once_until_it_is_reopened(legs, tell) -> None:
    tell("tick_step", step="LEG-SAND", place="LEG L")
    with pytest.raises(Refused, match="reopen it first"):
        tell("tick_step", step="LEG-SAND", place="LEG L")
    tell("reopen_step", step="LEG-SAND", place="LEG L")
    tell("tick_step", step="LEG-SAND", place="LEG L")
    first, second = legs.snapshot().steps_done
    assert (first.reopened_at is None, second.reopened_at) == (False, None)


def test_steps_on_pieces_are_counted_and_go_with_what_is_split_off(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="10")
    assert tell("tick_step", step="TIP-PRIME", what="TIP", pieces="4") == "Done: «Prime» on 4 of TIP, 6 left."
    tell("fit_piece", slot="TOE L.1 / TIP")
    with pytest.raises(Refused, match="left to do on 6 of #1, not 7"):
        tell("tick_step", step="TIP-PRIME", what="#1", pieces="7")
    with pytest.raises(Refused, match="left to do on 0 of TIP-A"):
        tell("tick_step", step="TIP-PRIME", what="TIP-A")


def test_a_step_on_pieces_waits_for_the_one_before(legs, tell, clock) -> None:
    tell("count_part", part="TIP", pieces="10")
    tell("tick_step", step="TIP-PRIME", what="TIP", pieces="4")
    with pytest.raises(Refused, match="«Prime» \\(TIP-PRIME\\) is over on 0 pieces"):
        tell("tick_step", step="TIP-PAINT", what="TIP", pieces="4")
    clock.move_on(hours=1)
    with pytest.raises(Refused, match="is over on 4 pieces"):
        tell("tick_step", step="TIP-PAINT", what="TIP", pieces="5")
    tell("tick_step", step="TIP-PAINT", what="TIP", pieces="4")


def test_what_was_done_before_a_remake_no_longer_counts(legs, tell) -> None:
    tell("tick_step", step="LEG-SAND", place="LEG L")
    tell("remake_position", place="LEG L")
    tell("tick_step", step="LEG-SAND", place="LEG L")
    assert len(legs.snapshot().steps_done) == 2


def test_many_steps_are_ticked_all_or_none(legs, tell) -> None:
    ticks = tuple(TickStep(step=step, place=read_place("LEG L")) for step in ("LEG-SAND", "LEG-PAINT"))
    with pytest.raises(Refused, match="Bond"):
        legs.record(TickSteps(ticks))
    assert legs.snapshot().steps_done == ()


def test_a_step_is_ticked_where_it_belongs(legs, tell) -> None:
    with pytest.raises(BadWish, match="one of its positions"):
        tell("tick_step", step="LEG-SAND", place="TOE L.1")
    with pytest.raises(BadWish, match="work on pieces"):
        tell("tick_step", step="TIP-PRIME", place="TOE L.1")
