"""What happens to pieces that stand in no slot."""

import pytest

from buildlog.errors import NotFound, Refused
from buildlog.ledger import Ledger
from buildlog.terms import LotEntryKind, LotOrigin


def entries(ledger: Ledger) -> list[tuple[int, str, int]]:
    return [(entry.lot_id, entry.kind.value, entry.pieces) for entry in ledger.snapshot().lot_entries]


def test_what_broke_may_be_named_by_the_position_that_it_stands_in(legs, tell, refused) -> None:
    tell("count_part", part="TIP", pieces="9")
    tell("count_part", part="SHIN", side="L", pieces="4")
    assert "No TIP stands in TOE L.2" in refused(tell, "damage_pieces", what="TIP", where="end", stands_in="TOE L.2")
    for slot in ("TOE L.1 / TIP", "TOE L.2 / TIP", "LEG L / SHIN", "LEG L / SHIN"):
        tell("fit_piece", slot=slot)
    assert tell("damage_pieces", what="TIP", where="end", stands_in="TOE L.2") == "TIP-B broke at end: out of use."
    said = refused(tell, "damage_pieces", what="SHIN L", where="end", stands_in="LEG L")
    assert said == "In LEG L stand SHINL-A, SHINL-B: say which one."
    assert [damage.place for damage in legs.snapshot().damages] == ["end"]


def test_a_count_of_a_part_never_recorded_is_a_new_lot(legs, tell) -> None:
    assert tell("count_part", part="SHIN", side="L", pieces="5", box="SHELF") == (
        "Counted 5 of SHIN L, 0 were known, 5 are new."
    )
    (lot,) = legs.snapshot().lots
    assert (lot.quantity, lot.origin, lot.mark) == (5, LotOrigin.COUNT, None)
    assert entries(legs) == []


def test_a_short_count_is_laid_over_the_lots_from_the_oldest_on(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="3", box="SHELF")
    tell("count_part", part="TIP", pieces="4", box="DRAWER")
    tell("count_part", part="TIP", pieces="5")
    assert entries(legs) == [(1, "counted", 3), (2, "counted", 2)]


def test_a_later_count_finds_the_missing_first_and_then_new_ones(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="5")
    tell("count_part", part="TIP", pieces="3")
    tell("count_part", part="TIP", pieces="6")
    assert entries(legs) == [(1, "counted", 3), (1, "counted", 5)]
    assert [lot.quantity for lot in legs.snapshot().lots] == [5, 1]


def test_a_count_in_a_box_reads_only_the_lots_kept_there(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="3", box="SHELF")
    tell("count_part", part="TIP", pieces="4", box="DRAWER")
    tell("move_pieces", what="#2", box="SHELF")
    tell("count_part", part="TIP", pieces="6", box="SHELF")
    assert [entry for entry in entries(legs) if entry[1] == "counted"] == [(1, "counted", 3), (2, "counted", 3)]


def test_a_count_does_not_see_what_is_fitted(legs, tell) -> None:
    tell("count_part", part="SHIN", side="L", pieces="3")
    tell("fit_piece", slot="LEG L / SHIN")
    assert tell("count_part", part="SHIN", side="L", pieces="2") == "Counted 2 of SHIN L, 2 were known."


def test_fewer_than_all_pieces_of_a_lot_are_split_off(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="5", box="SHELF")
    said = tell("scrap_pieces", what="TIP", pieces="2", why="stringing.")
    assert said.endswith(" (TIP): stringing.")
    parent, child = legs.snapshot().lots
    assert (child.parent_id, child.quantity, child.origin) == (parent.id, 2, LotOrigin.SPLIT)
    assert child.box_id == parent.box_id
    assert entries(legs) == [(1, "split off", 2), (2, "scrapped", 2)]


def test_all_pieces_of_a_lot_are_scrapped_without_a_split(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="5")
    tell("scrap_pieces", what="#1")
    assert entries(legs) == [(1, "scrapped", 5)]


def test_more_pieces_than_lie_there_are_refused_with_how_many_do(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="2")
    with pytest.raises(Refused, match="Of TIP 2 are in the box"):
        tell("scrap_pieces", what="TIP", pieces="3")


def test_missing_pieces_are_found_again_in_part(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="5")
    tell("mark_missing", what="#1")
    tell("found_pieces", what="TIP", pieces="2", box="DRAWER")
    assert entries(legs) == [(1, "missing", 5), (1, "found", 2), (1, "split off", 2), (2, "moved", 2)]


def test_lent_pieces_come_back(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="5")
    tell("lend_pieces", what="TIP", pieces="2", to="the other workshop, until Friday")
    with pytest.raises(Refused, match="Of TIP 2 are lent"):
        tell("pieces_back", what="TIP", pieces="3")
    tell("pieces_back", what="TIP")
    assert entries(legs) == [(1, "split off", 2), (2, "lent", 2), (2, "returned", 2)]


def test_a_broken_piece_is_out_of_use_until_repaired(legs, tell) -> None:
    tell("count_part", part="SHIN", side="L", pieces="1")
    tell("damage_pieces", what="#1", where="lower tab", why="dropped")
    with pytest.raises(Refused, match="out of use"):
        tell("fit_piece", slot="LEG L / SHIN", piece="#1")
    tell("repair_pieces", what="#1")
    tell("fit_piece", slot="LEG L / SHIN", piece="#1")
    (damage,) = legs.snapshot().damages
    assert damage.repaired_at is not None


def test_a_temporary_repair_leaves_a_fitted_piece_in_use(legs, tell) -> None:
    tell("count_part", part="SHIN", side="L", pieces="1")
    tell("fit_piece", slot="LEG L / SHIN")
    tell("damage_pieces", what="SHINL-A", where="tab", out_of_use="no")
    snapshot = legs.snapshot()
    assert snapshot.fittings[0].until_at is None
    assert LotEntryKind.OUT_OF_USE not in [entry.kind for entry in snapshot.lot_entries]


def test_pieces_made_by_hand_are_a_lot_and_printed_ones_are_not_made_so(legs, tell) -> None:
    tell("make_pieces", part="CORD", pieces="3")
    assert legs.snapshot().lots[0].origin is LotOrigin.MADE
    with pytest.raises(Refused, match="record its print"):
        tell("make_pieces", part="TIP")


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ({"part": "SHIN", "pieces": "1"}, "say whether L or R"),
        ({"part": "TIP", "side": "L", "pieces": "1"}, "leave the side out"),
        ({"part": "HINGE", "pieces": "1"}, "is bought"),
        ({"part": "CORD", "revision": "Z", "pieces": "1"}, "no revision of CORD «Z»"),
    ],
)
def test_a_count_that_cannot_be_meant_is_refused(legs, tell, texts, said) -> None:
    with pytest.raises(Refused, match=said):
        tell("count_part", **texts)


def test_an_unknown_mark_names_those_that_are_near(legs, tell) -> None:
    tell("count_part", part="SHIN", side="L", pieces="2")
    tell("fit_piece", slot="LEG L / SHIN")
    with pytest.raises(NotFound, match="SHINL-A"):
        tell("scrap_pieces", what="SHINL-Q")


def test_scrapping_a_fitted_piece_says_where_it_stands(legs, tell) -> None:
    tell("count_part", part="SHIN", side="L", pieces="1")
    tell("fit_piece", slot="LEG L / SHIN")
    with pytest.raises(Refused, match="stands in LEG L / SHIN 1"):
        tell("scrap_pieces", what="SHINL-A")


def test_a_fact_from_before_a_lot_was_made_is_refused(legs, tell) -> None:
    tell("count_part", part="TIP", pieces="2")
    with pytest.raises(Refused, match="0 are in the box"):
        tell("scrap_pieces", at="2026-11-10T08:00:00Z", what="#1")


def test_a_late_scrap_that_a_later_fact_contradicts_is_refused(legs, tell) -> None:
    tell("count_part", at="2026-11-10T08:00:00Z", part="TIP", pieces="2")
    tell("lend_pieces", at="2026-11-20T08:00:00Z", what="#1")
    with pytest.raises(Refused, match="does not have that many"):
        tell("scrap_pieces", at="2026-11-15T08:00:00Z", what="TIP", pieces="1")


def test_a_marked_piece_is_counted_as_one_at_most(legs, tell) -> None:
    tell("count_part", part="SHIN", side="L", pieces="2")
    tell("put_stand_in", slot="LEG R / SHIN", piece="SHIN L")
    with pytest.raises(Refused, match="stands in a slot"):
        tell("count_lot", what="SHINL-A", pieces="1")
    tell("take_out", piece="SHINL-A")
    with pytest.raises(Refused, match="is one marked piece"):
        tell("count_lot", what="SHINL-A", pieces="2")
    assert tell("count_lot", what="SHINL-A", pieces="0") == "Counted 0 of SHINL-A, 1 were known."
