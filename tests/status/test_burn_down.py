"""Print hours left as they were: slots asked for then less the pieces then there."""

import pytest

from buildlog.terms import LotEntryKind, LotOrigin, Moment, OldGoodFor

# the curve has a point at the end of each full week at home: midnight of Mondays, 23:00 UTC of Sundays in winter
FIRST, SECOND, THIRD = "2026-11-08T23:00:00Z", "2026-11-15T23:00:00Z", "2026-11-22T23:00:00Z"


def day(number):
    return Moment(f"2026-11-{number:02d}T12:00:00Z")


@pytest.fixture
def left(shop):
    """``left()``: in pieces (to a tenth: hours left now are whole minutes), at three week ends and now."""
    shop.printer()
    build = shop.build()
    shop.root = shop.assembly("BEETLE", build)

    def curve():
        status = shop.status()
        piece = next(iter(status.hours.pieces.values())).expected_minutes / 60
        actual = dict(status.stock.hours_burn_down.actual)
        return [round(actual[at] / piece, 1) for at in (FIRST, SECOND, THIRD, status.now)]

    return curve


def test_a_piece_counts_from_when_it_was_made(shop, left):
    part = shop.part("A")
    shop.use(part, shop.root, 4)
    shop.lot(part, made_at=day(10))
    shop.lot(part, made_at=day(18))
    assert left() == [4, 3, 2, 2]


def test_a_slot_counts_from_when_it_was_asked_for(shop, left):
    part = shop.part("A")
    shop.use(part, shop.root, 2, since_at=day(1))
    shop.use(part, shop.root, 3, since_at=day(18))
    assert left() == [2, 2, 5, 5]


def test_a_usage_that_has_ended_counts_until_then(shop, left):
    old, new = shop.part("A"), shop.part("B")
    shop.use(old, shop.root, 3, ended_at=day(18))
    shop.use(new, shop.root, 2, since_at=day(18))
    assert left() == [3, 3, 2, 2]


def test_scrapped_pieces_are_to_print_again_from_then_on(shop, left):
    part = shop.part("A")
    shop.use(part, shop.root, 4)
    lot = shop.lot(part, 3, made_at=day(5))
    shop.happens(lot, LotEntryKind.SCRAPPED, 2, at=day(18))
    assert left() == [1, 1, 3, 3]


def test_a_revision_that_is_no_good_makes_old_pieces_count_no_longer(shop, left):
    part = shop.part("A")
    shop.use(part, shop.root, 2)
    shop.lot(part, 2, made_at=day(5))
    shop.revise(part, "B", day(18), left=OldGoodFor.NO_GOOD)
    assert left() == [0, 0, 2, 2]


def test_pieces_split_off_count_once(shop, left):
    part = shop.part("A")
    shop.use(part, shop.root, 4)
    lot = shop.lot(part, 3, made_at=day(5))
    shop.happens(lot, LotEntryKind.SPLIT_OFF, 1, at=day(18))
    shop.lot(part, 1, made_at=day(18), origin=LotOrigin.SPLIT, parent_id=lot.id)
    assert left() == [1, 1, 1, 1]


def test_more_pieces_than_slots_leave_nothing_and_never_less(shop, left):
    part = shop.part("A")
    shop.use(part, shop.root, 1)
    shop.lot(part, 5, made_at=day(5))
    assert left() == [0, 0, 0, 0]
