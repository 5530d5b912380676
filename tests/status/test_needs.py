"""The allotment: which piece is laid against which slot, and what is still to get."""

from typing import Any

import pytest

from buildlog.status.blocker import BlockerKind
from buildlog.status.slot import Holds
from buildlog.terms import BuildState, Grade, JobState, Level, LotEntryKind, Moment, OldGoodFor, Side, SideRule, Stage

L, R, N = Side.LEFT, Side.RIGHT, Side.NONE


@pytest.fixture
def root(shop: Any) -> Any:
    return shop.assembly("ROOT", shop.build())


def holds(shop: Any) -> list[Holds]:
    return [slot.holds for slot in shop.status().needs.slots]


def test_sides_fill_in_step(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    shop.use(shop.part("FOOT"), legs, 3)
    slots = shop.status().needs.slots
    left, right = shop.position(legs, L).id, shop.position(legs, R).id
    assert [(slot.position, slot.number) for slot in slots] == [
        (left, 1), (right, 1), (left, 2), (right, 2), (left, 3), (right, 3),
    ]  # fmt: skip


def test_neutral_pieces_serve_left_and_right_in_turn(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    part = shop.part("FOOT")
    shop.use(part, legs, 2)
    shop.lot(part, 3)
    needs = shop.status().needs
    filled = [slot.position for slot in needs.slots if slot.holds is Holds.ALLOTTED]
    assert filled == [shop.position(legs, L).id, shop.position(legs, R).id, shop.position(legs, L).id]


def test_a_handed_piece_serves_only_its_side(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    part = shop.part("SHELL", handed=True)
    shop.use(part, legs)
    shop.lot(part, 2, L)
    by_part = shop.status().needs.by_part
    assert (by_part[part.id, L].usable, by_part[part.id, R].to_get) == (1, 1)


def test_builds_are_served_by_rank_and_no_rank_comes_last(shop: Any) -> None:
    part = None
    for rank in (None, 2, 1):
        build = shop.build(rank=rank)
        part = part or shop.part("FOOT")
        shop.use(part, shop.assembly(f"ROOT{build.id}", build))
    slots = shop.status().needs.slots
    assert [shop.rows["positions"][slot.position - 1].assembly_id for slot in slots] == [3, 2, 1]


def test_level_by_level_assembly_rank_comes_before_place_in_the_tree(shop: Any, root: Any) -> None:
    first, second = shop.assembly("FIRST", root), shop.assembly("SECOND", root, rank=1)
    below = shop.assembly("BELOW", second)
    part = shop.part("FOOT")
    for assembly in (root, first, second, below):
        shop.use(part, assembly)
    slots = shop.status().needs.slots
    order = [shop.rows["positions"][slot.position - 1].assembly_id for slot in slots]
    assert order == [root.id, second.id, below.id, first.id]


def test_paused_and_closed_builds_claim_nothing(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    for state in (BuildState.PAUSED, BuildState.CLOSED):
        shop.use(part, shop.assembly(f"R-{state}", shop.build(state=state, rank=1)))
    shop.use(part, root)
    shop.lot(part)
    needs = shop.status().needs
    assert [(slot.position, slot.holds) for slot in needs.slots] == [(shop.position(root).id, Holds.ALLOTTED)]


def test_the_current_revision_goes_first_then_the_oldest_piece(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root, 3)
    old = shop.lot(part, made_at=Moment("2026-11-02T08:00:00Z"))
    revised = shop.revise(part, "B", Moment("2026-11-03T08:00:00Z"), OldGoodFor.STILL_GOOD)
    new = shop.lot(part, revision_id=revised.id, made_at=Moment("2026-11-06T08:00:00Z"))
    newer = shop.lot(part, revision_id=revised.id, made_at=Moment("2026-11-08T08:00:00Z"))
    assert [slot.piece for slot in shop.status().needs.slots] == [new.id, newer.id, old.id]


def test_a_piece_split_off_is_as_old_as_its_first_lot(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    first = shop.lot(part, made_at=Moment("2026-11-02T08:00:00Z"))
    shop.lot(part, made_at=Moment("2026-11-04T08:00:00Z"))
    shop.happens(first, LotEntryKind.SPLIT_OFF)
    split = shop.lot(part, made_at=Moment("2026-11-09T08:00:00Z"), parent_id=first.id)
    assert [slot.piece for slot in shop.status().needs.slots] == [split.id]


@pytest.mark.parametrize("answer", [OldGoodFor.STAND_INS, OldGoodFor.NO_GOOD])
def test_a_revision_counts_only_when_every_later_one_says_still_good(shop: Any, root: Any, answer: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    shop.lot(part)
    shop.revise(part, "B", Moment("2026-11-03T08:00:00Z"), answer)
    shop.revise(part, "C", Moment("2026-11-04T08:00:00Z"), OldGoodFor.STILL_GOOD)
    assert holds(shop) == [Holds.TO_GET]


def test_a_change_can_spare_one_side(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    part = shop.part("SHELL", handed=True)
    shop.use(part, legs)
    shop.lot(part, 1, L)
    shop.lot(part, 1, R)
    shop.revise(part, "B", Moment("2026-11-03T08:00:00Z"), OldGoodFor.NO_GOOD, OldGoodFor.STILL_GOOD)
    assert holds(shop) == [Holds.TO_GET, Holds.ALLOTTED]


def test_a_second_serves_only_where_it_will_do_and_there_first(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    shop.use(part, root, second_will_do=True)
    good, second = shop.lot(part), shop.lot(part, grade=Grade.SECOND)
    assert [slot.piece for slot in shop.status().needs.slots] == [good.id, second.id]


def test_a_salvage_piece_counts_once_it_was_joined_into_one(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    lot = shop.lot(part, grade=Grade.SALVAGE)
    assert holds(shop) == [Holds.TO_GET]
    shop.tick(shop.step(part), lot)
    assert holds(shop) == [Holds.ALLOTTED]


@pytest.mark.parametrize("kind", [LotEntryKind.LENT, LotEntryKind.MISSING, LotEntryKind.SCRAPPED])
def test_a_piece_that_is_not_there_is_not_free(shop: Any, root: Any, kind: LotEntryKind) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    shop.happens(shop.lot(part), kind)
    assert holds(shop) == [Holds.TO_GET]


def test_running_prints_serve_before_queued_ones(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root, 4)
    shop.printer()
    queued = shop.prints(part)
    ranked = shop.prints(part, rank=1)
    running = shop.prints(part, state=JobState.RUNNING)
    slots = shop.status().needs.slots
    assert [slot.line for slot in slots] == [running.id, ranked.id, queued.id, None]
    assert [slot.holds for slot in slots] == [Holds.UNDER_WAY] * 3 + [Holds.TO_GET]


def test_a_bought_part_takes_its_quantity_from_the_balance(shop: Any, root: Any) -> None:
    item = shop.bought(amount=25)
    shop.order(item, 10, Moment("2026-11-28T08:00:00Z"))
    part = shop.part("CORD", origin="bought", bought_item_id=item.id, bought_quantity=10, revised=False)
    shop.use(part, root, 4)
    assert holds(shop) == [Holds.ALLOTTED, Holds.ALLOTTED, Holds.UNDER_WAY, Holds.TO_GET]


@pytest.mark.parametrize(
    ("level", "held"), [(Level.PLENTY, Holds.ALLOTTED), (Level.LOW, Holds.ALLOTTED), (Level.OUT, Holds.TO_GET)]
)
def test_plenty_and_low_cover_and_out_blocks(shop: Any, root: Any, level: Level, held: Holds) -> None:
    item = shop.bought(level=level)
    part = shop.part("GLUE", origin="bought", bought_item_id=item.id, revised=False)
    shop.use(part, root, 2)
    assert holds(shop) == [held, held]


def test_spares_wanted_come_after_everything_on_a_line_of_their_own(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root, 2, spares_wanted=3)
    shop.use(part, shop.assembly("LEG", root), 1)
    shop.lot(part, 4)
    need = shop.status().needs.by_part[part.id, N]
    assert (need.needed, need.usable, need.spares_wanted, need.spares_to_get) == (3, 3, 3, 2)


@pytest.mark.parametrize(
    ("rule", "sides"),
    [(SideRule.LEFT_ONLY, [L]), (SideRule.RIGHT_ONLY, [R]), (SideRule.ONE_OF_EACH, [L, R])],
)
def test_side_rules_where_there_is_no_side(shop: Any, root: Any, rule: SideRule, sides: list[Side]) -> None:
    shop.use(shop.part("SHELL", handed=True), root, side_rule=rule)
    assert [slot.side for slot in shop.status().needs.slots] == sides


def test_left_only_opens_no_slot_on_the_right(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    shop.use(shop.part("FOOT"), legs, side_rule=SideRule.LEFT_ONLY)
    assert [slot.position for slot in shop.status().needs.slots] == [shop.position(legs, L).id]


def test_an_unproven_part_is_held_on_its_other_side_after_all_else(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    part = shop.part("SHELL", handed=True, lead_side=L)
    shop.use(part, legs)
    shop.use(shop.part("FOOT"), legs)
    slots = shop.status().needs.slots
    assert [slot.held for slot in slots] == [False, False, False, True]
    assert shop.status().needs.by_part[part.id, R].held == 1
    leaves = shop.status().blockers.leaves[shop.position(legs, R).id]
    assert [(leaf.text, leaf.pieces) for leaf in leaves if leaf.kind is BlockerKind.HELD] == [
        ("1 × SHELL held until it is proven on the left", 1)
    ]
    shop.change("parts", part, stage=Stage.PROVEN)
    assert not any(slot.held for slot in shop.status().needs.slots)


def test_what_is_under_way_on_the_held_side_goes_on(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    part = shop.part("SHELL", handed=True, lead_side=L)
    shop.use(part, legs)
    shop.prints(part, side=R)
    assert [(s.side, s.holds, s.held) for s in shop.status().needs.slots][1] == (R, Holds.UNDER_WAY, False)
