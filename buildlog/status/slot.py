"""One slot and what it holds now. There are many: a named tuple is the lightest frozen thing."""

from enum import StrEnum
from typing import NamedTuple

from buildlog.terms import Side


class Holds(StrEnum):
    FILLED = "filled"  # a right piece is fitted
    ALLOTTED = "allotted"  # a free right piece is laid against it
    UNDER_WAY = "under way"  # a running or queued print will make it, or it is on order
    TO_GET = "to get"


FILLED, ALLOTTED, UNDER_WAY, TO_GET = Holds
"""Named once for loops over slots, where asking the enum for its member costs as much as half a round."""


class Slot(NamedTuple):
    """``piece`` is the lot fitted or allotted, ``line`` the job line under way.

    ``stood_in`` names the fitting that stands there without filling it (then ``holds`` tells what is laid against
    the slot beside it). ``held`` slots wait for the lead side. ``open_steps``: the piece lies there, but steps on
    the part are open, so it does not fill. ``rank`` is the place in the allotment order, 0 first.
    """

    position: int
    usage: int
    number: int
    part: int
    side: Side
    holds: Holds
    rank: int
    piece: int | None = None
    fitting: int | None = None
    line: int | None = None
    stood_in: int | None = None
    held: bool = False
    open_steps: bool = False
