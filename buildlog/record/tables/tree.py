"""The tree of a build and what stands in it: assemblies, positions, parts, revisions, demands, usages."""

from sqlalchemy import CheckConstraint, ForeignKey, UniqueConstraint
from sqlmodel import Field

from buildlog.record.tables.columns import Row, choice, maybe_ref, ref
from buildlog.terms import Joined, OldGoodFor, Origin, Side, SideRule, Stage


class Assembly(Row, table=True):
    """``lead_side`` goes first until ``lead_test_id`` is passed and fresh there."""

    __tablename__ = "assembly"
    __table_args__ = (
        CheckConstraint("(lead_side IS NULL) = (lead_test_id IS NULL)", name="lead"),
        CheckConstraint("lead_side IS NULL OR paired", name="lead_paired"),
    )

    build_id: int = ref("build")
    parent_id: int | None = maybe_ref("assembly")
    code: str = Field(unique=True)
    name: str
    paired: bool = False
    count: int = 1
    joined: Joined = choice(Joined, "joined")
    rank: int | None = None
    tree_order: int
    lead_side: Side | None = choice(Side, "lead_side", default=None)
    lead_test_id: int | None = Field(
        default=None,
        index=True,
        # A fit test belongs to an assembly in turn: use_alter keeps the two sortable.
        sa_column_args=[ForeignKey("fit_test.id", use_alter=True)],
    )
    box_id: int | None = maybe_ref("box")
    retired_at: str | None = None


class Position(Row, table=True):
    """One occurrence of an assembly; pieces, steps and fits before ``remade_at`` no longer count."""

    __tablename__ = "position"
    __table_args__ = (UniqueConstraint("assembly_id", "parent_id", "side", "ordinal"),)

    assembly_id: int = ref("assembly")
    parent_id: int | None = maybe_ref("position")
    side: Side = choice(Side, "side")
    ordinal: int
    remade_at: str | None = None
    retired_at: str | None = None


class Part(Row, table=True):
    __tablename__ = "part"
    __table_args__ = (
        CheckConstraint("(bought_item_id IS NULL) = (origin <> 'bought')", name="bought"),
        CheckConstraint("lead_side IS NULL OR handed", name="lead_handed"),
    )

    build_id: int = ref("build")
    code: str = Field(unique=True)
    name: str
    origin: Origin = choice(Origin, "origin")
    handed: bool = False
    stage: Stage = choice(Stage, "stage")
    one_lot: bool = False
    matched_set: str = ""
    lead_side: Side | None = choice(Side, "lead_side", default=None)
    variant_of_id: int | None = maybe_ref("part")
    scale_percent: float | None = None
    bought_item_id: int | None = maybe_ref("bought_item")
    bought_quantity: int | None = None
    length_um: int | None = None
    width_um: int | None = None
    height_um: int | None = None
    nozzle_um: int | None = None
    needs: str = ""
    superseded_by_id: int | None = maybe_ref("part")
    retired_at: str | None = None


class Revision(Row, table=True):
    """``old_left`` and ``old_right`` say what earlier pieces are good for; a neutral part has both alike."""

    __tablename__ = "revision"
    __table_args__ = (UniqueConstraint("part_id", "letter"),)

    part_id: int = ref("part")
    letter: str
    since_at: str
    what_changed: str = ""
    print_minutes: int | None = None
    hand_minutes: int | None = None
    figures_from: str = ""
    old_left: OldGoodFor | None = choice(OldGoodFor, "old_left", default=None)
    old_right: OldGoodFor | None = choice(OldGoodFor, "old_right", default=None)


class Demand(Row, table=True):
    """What one piece of a revision asks of a head: an exact material, or a polymer in any colour."""

    __tablename__ = "demand"
    __table_args__ = (
        UniqueConstraint("revision_id", "head"),
        CheckConstraint("(material_id IS NULL) <> (polymer IS NULL)", name="exact_or_any"),
    )

    revision_id: int = ref("revision")
    head: int = 1
    material_id: int | None = maybe_ref("material")
    polymer: str | None = None
    part_mg: int
    support_mg: int = 0
    purge_mg: int = 0


class Usage(Row, table=True):
    __tablename__ = "usage"

    assembly_id: int = ref("assembly")
    part_id: int = ref("part")
    quantity: int
    side_rule: SideRule = choice(SideRule, "side_rule")
    spares_wanted: int = 0
    second_will_do: bool = False
    since_at: str
    ended_at: str | None = None
