"""Pieces: boxes, lots and their entries, what stands in a slot, damage."""

from sqlalchemy import CheckConstraint, Index, text
from sqlmodel import Field

from buildlog.record.tables.columns import Row, choice, maybe_ref, ref
from buildlog.terms import Grade, LotEntryKind, LotOrigin, Side


class Box(Row, table=True):
    __tablename__ = "box"

    code: str = Field(unique=True)
    name: str
    place: str = ""
    retired_at: str | None = None


class Lot(Row, table=True):
    """Alike pieces with one origin; ``quantity`` came in at ``made_at``, entries tell the rest."""

    __tablename__ = "lot"

    part_id: int = ref("part")
    revision_id: int = ref("revision")
    side: Side = choice(Side, "side")
    quantity: int
    origin: LotOrigin = choice(LotOrigin, "origin")
    grade: Grade = choice(Grade, "grade")
    made_at: str
    job_line_id: int | None = maybe_ref("job_line")
    parent_id: int | None = maybe_ref("lot")
    mark: str | None = Field(default=None, unique=True)
    box_id: int | None = maybe_ref("box")


class LotEntry(Row, table=True):
    """``counted`` keeps the reading in ``pieces``; ``moved`` names the box; others act on ``pieces`` pieces."""

    __tablename__ = "lot_entry"
    __table_args__ = (CheckConstraint("pieces >= 0", name="pieces"),)

    lot_id: int = ref("lot")
    at: str
    kind: LotEntryKind = choice(LotEntryKind, "kind")
    pieces: int
    box_id: int | None = maybe_ref("box")
    cause: str = ""


class Fitting(Row, table=True):
    """What stands in a slot (position, usage, number) from ``from_at`` until ``until_at``.

    A printed or hand-made piece is a lot of one, a bought one names neither lot nor words,
    something else is a stand-in told in ``what``.
    """

    __tablename__ = "fitting"
    __table_args__ = (
        CheckConstraint("number >= 1", name="number"),
        CheckConstraint("until_at IS NULL OR until_at >= from_at", name="span"),
        CheckConstraint("NOT (lot_id IS NOT NULL AND what <> '')", name="one_thing"),
        Index(
            "ux_fitting_standing",
            "position_id",
            "usage_id",
            "number",
            unique=True,
            sqlite_where=text("until_at IS NULL"),
        ),
        Index("ux_fitting_lot", "lot_id", unique=True, sqlite_where=text("until_at IS NULL")),
    )

    position_id: int = ref("position")
    usage_id: int = ref("usage")
    number: int
    lot_id: int | None = maybe_ref("lot")
    what: str = ""
    stand_in: bool = False
    from_at: str
    until_at: str | None = None
    left_as_is: bool = False


class Damage(Row, table=True):
    __tablename__ = "damage"

    lot_id: int = ref("lot")
    at: str
    place: str
    why: str = ""
    out_of_use: bool
    repaired_at: str | None = None
