"""Which positions a position waits for, told from any rows that have a side, a parent and an ordinal."""

from collections.abc import Iterable
from typing import Protocol, TypeVar

from buildlog.terms import Side


class Placed(Protocol):
    @property
    def side(self) -> Side: ...
    @property
    def parent_id(self) -> int | None: ...
    @property
    def ordinal(self) -> int: ...


P = TypeVar("P", bound=Placed)


def waited_for(position: Placed, others: Iterable[P], same_count: bool) -> list[P]:
    """Of the positions of an assembly those with the same side where both have one, and with the same ordinal where
    both hang under the same position and their assemblies have the ``same_count``; else all of them.
    """
    return [
        other
        for other in others
        if (Side.NONE in (position.side, other.side) or position.side is other.side)
        and (not same_count or other.parent_id != position.parent_id or other.ordinal == position.ordinal)
    ]
