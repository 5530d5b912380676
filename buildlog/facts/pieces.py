"""Boxes, lots, what stands in slots, damage."""

from buildlog.facts.frozen import frozen
from buildlog.terms import Grade, LotEntryKind, LotOrigin, Moment, Side


@frozen
class Box:
    id: int
    code: str
    name: str
    place: str
    retired_at: Moment | None


@frozen
class Lot:
    """Alike pieces with one origin; ``quantity`` came in at ``made_at``, entries tell the rest."""

    id: int
    part_id: int
    revision_id: int
    side: Side
    quantity: int
    origin: LotOrigin
    grade: Grade
    made_at: Moment
    job_line_id: int | None
    parent_id: int | None
    mark: str | None
    box_id: int | None


@frozen
class LotEntry:
    """``counted`` keeps the reading in ``pieces``; ``moved`` names the box; others act on ``pieces`` pieces."""

    id: int
    lot_id: int
    at: Moment
    kind: LotEntryKind
    pieces: int
    box_id: int | None
    cause: str


@frozen
class Fitting:
    """What stands in a slot (position, usage, number) from ``from_at`` until ``until_at``.

    A printed or hand-made piece is a lot of one, a bought one names neither lot nor words,
    something else is a stand-in told in ``what``.
    """

    id: int
    position_id: int
    usage_id: int
    number: int
    lot_id: int | None
    what: str
    stand_in: bool
    from_at: Moment
    until_at: Moment | None
    left_as_is: bool


@frozen
class Damage:
    id: int
    lot_id: int
    at: Moment
    place: str
    why: str
    out_of_use: bool
    repaired_at: Moment | None
