"""Assemblies, positions, parts, revisions, demands and usages."""

from buildlog.facts.frozen import frozen
from buildlog.terms import Joined, Moment, OldGoodFor, Origin, Side, SideRule, Stage


@frozen
class Assembly:
    """``lead_side`` goes first until ``lead_test_id`` is passed and fresh there."""

    id: int
    build_id: int
    parent_id: int | None
    code: str
    name: str
    paired: bool
    count: int
    joined: Joined
    rank: int | None
    tree_order: int
    lead_side: Side | None
    lead_test_id: int | None
    box_id: int | None
    retired_at: Moment | None


@frozen
class Position:
    """One occurrence of an assembly; pieces, steps and fits before ``remade_at`` no longer count."""

    id: int
    assembly_id: int
    parent_id: int | None
    side: Side
    ordinal: int
    remade_at: Moment | None
    retired_at: Moment | None


@frozen
class Part:
    id: int
    build_id: int
    code: str
    name: str
    origin: Origin
    handed: bool
    stage: Stage
    one_lot: bool
    matched_set: str
    lead_side: Side | None
    variant_of_id: int | None
    scale_percent: float | None
    bought_item_id: int | None
    bought_quantity: int | None
    length_um: int | None
    width_um: int | None
    height_um: int | None
    nozzle_um: int | None
    needs: str
    superseded_by_id: int | None
    retired_at: Moment | None


@frozen
class Revision:
    """``old_left`` and ``old_right`` say what earlier pieces are good for; a neutral part has both alike."""

    id: int
    part_id: int
    letter: str
    since_at: Moment
    what_changed: str
    print_minutes: int | None
    hand_minutes: int | None
    figures_from: str
    old_left: OldGoodFor | None
    old_right: OldGoodFor | None


@frozen
class Demand:
    """What one piece of a revision asks of a head: an exact material, or a polymer in any colour."""

    id: int
    revision_id: int
    head: int
    material_id: int | None
    polymer: str | None
    part_mg: int
    support_mg: int
    purge_mg: int


@frozen
class Usage:
    id: int
    assembly_id: int
    part_id: int
    quantity: int
    side_rule: SideRule
    spares_wanted: int
    second_will_do: bool
    since_at: Moment
    ended_at: Moment | None
