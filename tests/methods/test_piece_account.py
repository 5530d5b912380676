"""Where the pieces of a lot are."""

from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.piece_account import Entry, Pieces, least_free, pieces_at, standings

KINDS = ("counted", "fitted", "taken out", "scrapped", "missing", "found", "lent", "returned", "split off", "moved")


def last(quantity: int, *entries: Entry) -> Pieces:
    return standings(quantity, "01", entries)[-1].pieces


def test_a_short_count_is_missing_and_a_long_one_finds_those_first() -> None:
    short = Entry("02", "counted", 3)
    assert last(5, short) == Pieces(box=3, missing=2)
    assert last(5, short, Entry("03", "counted", 6)) == Pieces(box=6, found=1)


def test_at_equal_moments_entries_come_before_counts() -> None:
    count, fitted = Entry("02", "counted", 4), Entry("02", "fitted", 1)
    assert last(5, count, fitted) == last(5, fitted, count) == Pieces(box=4, fitted=1)


def test_a_count_after_late_entries_is_kept_as_read() -> None:
    assert last(5, Entry("04", "counted", 4), Entry("02", "split off", 1)) == Pieces(box=4, split_off=1)


def test_broken_pieces_lie_there_and_are_not_free() -> None:
    broken = last(3, Entry("02", "out of use", 2))
    assert (broken.box, broken.free) == (3, 1)
    assert last(1, Entry("02", "fitted", 1), Entry("03", "out of use", 1)).free == 0
    assert last(3, Entry("02", "out of use", 2), Entry("03", "scrapped", 3)).out_of_use == 0


def test_the_state_before_a_lot_was_made_is_empty() -> None:
    told = standings(5, "03", [Entry("04", "lent", 2)])
    assert [pieces_at(told, at).box for at in ("02", "03", "04")] == [0, 5, 3]


def test_least_free_looks_ahead() -> None:
    told = standings(5, "01", [Entry("04", "lent", 4), Entry("06", "returned", 4)])
    assert [least_free(told, at) for at in ("02", "04", "06")] == [1, 1, 5]


@given(
    quantity=st.integers(0, 9),
    entries=st.lists(st.builds(Entry, st.sampled_from("23456"), st.sampled_from(KINDS), st.integers(0, 9))),
)
def test_no_piece_appears_or_vanishes(quantity: int, entries: list[Entry]) -> None:
    for standing in standings(quantity, "1", entries):
        p = standing.pieces
        assert quantity + p.found == p.box + p.fitted + p.lent + p.missing + p.scrapped + p.split_off
