"""What happens to slots, late facts too."""

import pytest

from buildlog.errors import BadWish, NotFound, Refused

MONDAY, TUESDAY, FRIDAY = "2026-11-16T08:00:00Z", "2026-11-17T08:00:00Z", "2026-11-20T08:00:00Z"


@pytest.fixture
def shins(tell) -> None:
    """Five left and two right shins since 10 November."""
    for side, pieces in (("L", "5"), ("R", "2")):
        tell("count_part", at="2026-11-10T08:00:00Z", part="SHIN", side=side, pieces=pieces)


def spans(ledger) -> list[tuple[int, int | None, str, str | None]]:
    return [(f.number, f.lot_id, f.from_at, f.until_at) for f in ledger.snapshot().fittings]


def test_a_fitted_piece_is_a_marked_lot_of_one(legs, tell, shins) -> None:
    assert tell("fit_piece", slot="LEG L / SHIN") == "Fitted SHINL-A in LEG L / SHIN 1."
    lot = legs.snapshot().lots[-1]
    assert (lot.quantity, lot.mark, lot.parent_id) == (1, "SHINL-A", 1)


def test_the_first_empty_slot_is_taken(legs, tell, shins) -> None:
    tell("fit_piece", slot="LEG L / SHIN 1")
    assert tell("fit_piece", slot="LEG L / SHIN") == "Fitted SHINL-B in LEG L / SHIN 2."
    with pytest.raises(Refused, match="All 2 slots hold something"):
        tell("fit_piece", slot="LEG L / SHIN")


def test_fitting_where_something_stands_asks_what_becomes_of_it(legs, tell, shins) -> None:
    tell("fit_piece", slot="LEG L / SHIN 1")
    with pytest.raises(Refused, match=r"SHINL-A stands in LEG L / SHIN 1 .* say what becomes of it"):
        tell("fit_piece", slot="LEG L / SHIN 1")
    tell("fit_piece", slot="LEG L / SHIN 1", old="scrap")
    first, second = spans(legs)
    assert first[3] == second[2]
    assert [e.kind.value for e in legs.snapshot().lot_entries if e.lot_id == first[1]] == [
        "fitted",
        "taken out",
        "scrapped",
    ]


def test_a_late_fit_before_a_later_one_offers_to_end_it_there(legs, tell, shins) -> None:
    tell("fit_piece", at=FRIDAY, slot="LEG L / SHIN 1")
    with pytest.raises(Refused, match=r"would both stand in LEG L / SHIN 1: end it at Fri 20 Nov 09:00"):
        tell("fit_piece", at=MONDAY, slot="LEG L / SHIN 1")
    tell("fit_piece", at=MONDAY, slot="LEG L / SHIN 1", end_at=FRIDAY)
    assert [(start, end) for _, _, start, end in spans(legs)] == [(FRIDAY, None), (MONDAY, FRIDAY)]
    assert legs.check() == []


def test_a_late_fit_inside_a_span_moves_the_end_of_the_old_one(legs, tell, shins) -> None:
    tell("fit_piece", at=MONDAY, slot="LEG L / SHIN 1")
    tell("take_out", at=FRIDAY, slot="LEG L / SHIN 1")
    with pytest.raises(
        Refused, match="SHINL-A stands in LEG L / SHIN 1 from Mon 16 Nov 09:00 until Fri 20 Nov 09:00"
    ):
        tell("fit_piece", at=TUESDAY, slot="LEG L / SHIN 1")
    tell("fit_piece", at=TUESDAY, slot="LEG L / SHIN 1", end_old_at=TUESDAY)
    assert [(start, end) for _, _, start, end in spans(legs)] == [(MONDAY, TUESDAY), (TUESDAY, None)]
    taken_out = [e.at for e in legs.snapshot().lot_entries if e.kind.value == "taken out"]
    assert taken_out == [TUESDAY]


def test_a_piece_cannot_stand_in_two_slots_at_once(legs, tell, shins) -> None:
    tell("fit_piece", at=MONDAY, slot="LEG L / SHIN 1")
    with pytest.raises(Refused, match=r"SHINL-A would stand in LEG L / SHIN 2 from .* and in LEG L / SHIN 1"):
        tell("fit_piece", at=FRIDAY, slot="LEG L / SHIN 2", piece="SHINL-A")


def test_a_piece_of_the_other_side_goes_in_only_as_a_stand_in(legs, tell, shins) -> None:
    with pytest.raises(Refused, match="is L, LEG R / SHIN 1 takes R"):
        tell("fit_piece", slot="LEG R / SHIN 1", piece="SHIN L")
    tell("put_stand_in", slot="LEG R / SHIN 1", piece="SHIN L")
    (fitting,) = legs.snapshot().fittings
    assert fitting.stand_in


def test_a_stand_in_may_be_words(legs, tell) -> None:
    assert tell("put_stand_in", slot="LEG R / SHIN", words="a strip of card") == (
        "a strip of card stands in in LEG R / SHIN 1."
    )
    with pytest.raises(BadWish, match="one of both"):
        tell("put_stand_in", slot="LEG R / SHIN")


def test_a_hook_goes_into_the_slot_of_its_side(legs, tell) -> None:
    tell("count_part", part="HOOK", side="R", pieces="1")
    assert tell("fit_piece", slot="BEETLE / HOOK", piece="HOOK R") == "Fitted HOOKR-A in BEETLE / HOOK 2."


def test_a_bought_part_draws_its_item_and_gives_it_back(legs, tell) -> None:
    tell("fit_piece", slot="LEG L / HINGE")
    tell("take_out", slot="LEG L / HINGE")
    tell("fit_piece", slot="LEG L / HINGE")
    tell("take_out", slot="LEG L / HINGE", becomes="scrap")
    moved = [(e.kind.value, e.amount, e.fitting_id) for e in legs.snapshot().bought_entries]
    assert moved == [("drawn", 2, 1), ("returned", 2, 1), ("drawn", 2, 2)]


def test_taking_out_reopens_bonding_unless_told_to_keep_it(legs, tell, shins) -> None:
    tell("fit_piece", slot="LEG L / SHIN")
    tell("tick_step", step="LEG-SAND", place="LEG L")
    tell("tick_step", step="LEG-BOND", place="LEG L", overruled="yes")
    tell("take_out", piece="SHINL-A", keep_steps="yes")
    assert [tick.reopened_at for tick in legs.snapshot().steps_done] == [None, None]
    tell("fit_piece", slot="LEG L / SHIN")
    tell("take_out", slot="LEG L / SHIN", box="DRAWER")
    sand, bond = legs.snapshot().steps_done
    assert sand.reopened_at is None
    assert bond.reopened_at is not None


def test_the_current_revision_is_taken_before_older_ones(legs, tell) -> None:
    tell("count_part", at="2026-11-10T08:00:00Z", part="TIP", pieces="1")
    tell("revise", at=MONDAY, part="TIP", old="still good")
    tell("count_part", part="TIP", revision="B", pieces="1")
    tell("fit_piece", slot="TOE L.1 / TIP")
    fitted = legs.snapshot().fittings[0].lot_id
    assert fitted == 2
    tell("fit_piece", slot="TOE L.2 / TIP")
    assert legs.snapshot().fittings[1].lot_id == 1


def test_pieces_that_no_longer_count_are_not_taken(legs, tell) -> None:
    tell("count_part", at="2026-11-10T08:00:00Z", part="TIP", pieces="1")
    tell("revise", at=MONDAY, part="TIP", old="stand-ins")
    with pytest.raises(Refused, match="No piece of TIP is free"):
        tell("fit_piece", slot="TOE L.1 / TIP")


def test_a_second_is_taken_only_where_it_will_do(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="1", grade="second")
    with pytest.raises(Refused, match="No piece of TIP is free"):
        tell("fit_piece", slot="TOE L.1 / TIP")


def test_a_name_that_is_several_positions_lists_them(legs, tell) -> None:
    with pytest.raises(Refused, match=r"may be TOE L.1, TOE L.2, TOE L.3: say which one"):
        tell("fit_piece", slot="TOE L / TIP")
    with pytest.raises(NotFound, match=r"Did you mean TOE L.1"):
        tell("fit_piece", slot="TOE L.9 / TIP")
    with pytest.raises(Refused, match=r"TOE L.1 has no slot for SHIN: it takes TIP"):
        tell("fit_piece", slot="TO L.1 / SHIN")


def test_all_slots_of_a_part_are_cleared_at_once(legs, tell, shins) -> None:
    tell("fit_piece", slot="LEG L / SHIN")
    tell("fit_piece", slot="LEG L / SHIN")
    assert tell("clear_slot", slot="LEG L / SHIN") == ("Cleared LEG L / SHIN 1, LEG L / SHIN 2, back to the box.")
    assert all(until for _, _, _, until in spans(legs))
