"""On how many pieces of each lot a step is done."""

from buildlog.methods.piece_work import Family, Tick, done_by_lot

ROOT = Family(1, None, 10, "01")


def test_what_is_split_off_takes_finished_pieces_along_first() -> None:
    lots = [ROOT, Family(2, 1, 3, "03"), Family(3, 1, 3, "04")]
    assert done_by_lot(lots, [Tick(1, "02", 4)]) == {1: 0, 2: 3, 3: 1}


def test_ticks_after_a_split_stay_with_their_lot() -> None:
    assert done_by_lot([ROOT, Family(2, 1, 3, "02")], [Tick(1, "03", 4)]) == {1: 4, 2: 0}


def test_no_more_pieces_are_done_than_are_left() -> None:
    assert done_by_lot([ROOT, Family(2, 1, 8, "02")], [Tick(1, "03", 4)]) == {1: 2, 2: 0}


def test_finished_pieces_go_on_through_splits_of_splits() -> None:
    lots = [ROOT, Family(2, 1, 4, "03"), Family(3, 2, 1, "04")]
    assert done_by_lot(lots, [Tick(1, "02", 2)]) == {1: 0, 2: 1, 3: 1}
