"""Which slots a usage opens in a position: their numbers, from 1, and the side of the piece each one takes."""

from buildlog.terms import Side, SideRule


def slot_sides(rule: SideRule, quantity: int, position_side: Side, handed: bool) -> tuple[Side, ...]:
    """Side of the piece of slot 1, 2, …; empty where the rule opens none.

    *One of each* alternates, left first, so that a number keeps its side when the quantity grows.
    """
    if rule is SideRule.ONE_OF_EACH:
        sides = (Side.LEFT, Side.RIGHT) * quantity
    else:
        only = {SideRule.LEFT_ONLY: Side.LEFT, SideRule.RIGHT_ONLY: Side.RIGHT}.get(rule)
        if only and position_side not in (Side.NONE, only):
            return ()
        sides = (only or position_side,) * quantity
    return sides if handed else (Side.NONE,) * len(sides)
