"""Which slots a usage opens in a position."""

import pytest

from buildlog.facts.slot_numbers import slot_sides
from buildlog.terms import Side, SideRule

L, R, NONE = Side.LEFT, Side.RIGHT, Side.NONE


@pytest.mark.parametrize(
    ("rule", "position", "handed", "sides"),
    [
        (SideRule.AS_POSITION, L, True, (L, L)),
        (SideRule.AS_POSITION, L, False, (NONE, NONE)),
        (SideRule.LEFT_ONLY, L, True, (L, L)),
        (SideRule.LEFT_ONLY, R, True, ()),
        (SideRule.RIGHT_ONLY, L, False, ()),
        (SideRule.RIGHT_ONLY, NONE, True, (R, R)),
        (SideRule.ONE_OF_EACH, NONE, True, (L, R, L, R)),
    ],
)
def test_slots_follow_the_side_rule(rule: SideRule, position: Side, handed: bool, sides: tuple[Side, ...]) -> None:
    assert slot_sides(rule, 2, position, handed) == sides


def test_a_number_keeps_its_side_when_the_quantity_grows() -> None:
    few, many = (slot_sides(SideRule.ONE_OF_EACH, quantity, NONE, True) for quantity in (1, 3))
    assert many[: len(few)] == few
