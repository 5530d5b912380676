"""A position waits for its own side, and for the one beside it where both come as often."""

from typing import NamedTuple

from buildlog.facts.waited_for import waited_for
from buildlog.terms import Side


class Place(NamedTuple):
    side: Side
    parent_id: int | None
    ordinal: int


TOES = [Place(side, foot, ordinal) for foot, side in ((1, Side.LEFT), (2, Side.RIGHT)) for ordinal in (1, 2)]


def test_the_same_side_is_waited_for_where_both_have_one():
    assert waited_for(Place(Side.LEFT, 9, 1), TOES, same_count=False) == TOES[:2]


def test_all_are_waited_for_where_one_has_no_side():
    assert waited_for(Place(Side.NONE, 9, 1), TOES, same_count=False) == TOES
    belt = Place(Side.NONE, 9, 1)
    assert waited_for(TOES[0], [belt], same_count=False) == [belt]


def test_the_same_ordinal_is_waited_for_under_one_position_with_the_same_count():
    claw = Place(Side.LEFT, 1, 2)
    assert waited_for(claw, TOES, same_count=True) == [TOES[1]]
    assert waited_for(claw, TOES, same_count=False) == TOES[:2]


def test_ordinals_under_other_positions_do_not_count():
    assert waited_for(Place(Side.LEFT, 7, 2), TOES, same_count=True) == TOES[:2]
