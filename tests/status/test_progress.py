"""Three lengths, ready, shown, and the rows of Mirror."""

from typing import Any

import pytest

from buildlog.terms import Moment, Side, StepKind


@pytest.fixture
def root(shop: Any) -> Any:
    return shop.assembly("ROOT", shop.build())


def of(shop: Any, assembly: Any, side: Side | None = None) -> Any:
    return shop.status().progress.by_position[shop.position(assembly, side).id]


def test_a_stand_in_fills_no_length_but_shows(shop: Any, root: Any) -> None:
    usage = shop.use(shop.part("FOOT"), root)
    assert not of(shop, root).shown
    shop.fit(None, shop.position(root), usage, what="cardboard", stand_in=True)
    told = of(shop, root)
    assert (told.printed_minutes, told.printed_total, told.filled, told.stood_in) == (0, 60, 0, 1)
    assert told.shown
    assert not told.ready


def test_an_allotted_piece_is_printed_but_fills_only_where_there_are_no_steps(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    shop.lot(part)
    assert (of(shop, root).printed_minutes, of(shop, root).filled, of(shop, root).shown) == (60, 1, True)
    shop.step(root)
    assert (of(shop, root).printed_minutes, of(shop, root).filled, of(shop, root).shown) == (60, 0, False)


def test_a_piece_with_open_steps_does_not_fill(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    lot = shop.lot(part)
    step = shop.step(part, StepKind.SAND)
    assert (of(shop, root).filled, of(shop, root).ready) == (0, False)
    shop.tick(step, lot)
    assert (of(shop, root).filled, of(shop, root).ready) == (1, True)


def test_worked_and_passed_are_summed_over_the_subtree(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    part = shop.part("FOOT")
    usage = shop.use(part, legs)
    step = shop.step(legs, bench_minutes=20)
    test = shop.fit_test(legs, usage)
    left = shop.position(legs, Side.LEFT)
    fitting = shop.fit(shop.lot(part), left, usage)
    shop.tick(step, left)
    shop.result(test, left, fitting)
    told = of(shop, root)
    assert (told.worked_minutes, told.worked_total, told.passed, told.tests) == (20, 40, 1, 2)
    assert of(shop, legs, Side.LEFT).ready
    assert not told.ready


def test_a_position_is_ready_exactly_when_nothing_beneath_it_blocks(shop: Any, root: Any) -> None:
    step = shop.step(shop.assembly("LEG", root), StepKind.SAND)
    assert (of(shop, root).ready, of(shop, root).blockers_own, of(shop, root).blockers_beneath) == (False, 0, 1)
    shop.tick(step, shop.positions(shop.rows["assemblies"][1])[0])
    assert (of(shop, root).ready, of(shop, root).blockers_beneath) == (True, 0)


def test_mirror_sums_several_positions_of_a_side_and_follows_the_tree(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True, rank=5)
    toes = shop.assembly("TOE", legs, count=2)
    head = shop.assembly("HEAD", root, rank=1)
    shop.use(shop.part("CLAW"), toes, 3)
    rows = shop.status().progress.mirror(1)
    assert [(row.assembly_id, row.depth) for row in rows] == [(root.id, 0), (legs.id, 1), (toes.id, 2), (head.id, 1)]
    row = rows[2]
    assert (row.left.slots, row.right.slots, row.middle) == (6, 6, None)
    assert row.left_ids == tuple(position.id for position in shop.positions(toes, Side.LEFT))


def test_mirror_names_lead_and_held_side(shop: Any, root: Any) -> None:
    legs = shop.assembly("LEG", root, paired=True)
    test = shop.fit_test(legs, shop.use(shop.part("FOOT"), legs))
    shop.change("assemblies", legs, lead_side=Side.LEFT, lead_test_id=test.id)
    row = shop.status().progress.mirror(1)[1]
    assert (row.lead_side, row.held_side, row.right.held) == (Side.LEFT, Side.RIGHT, 1)


def test_what_a_print_fills_is_seen_at_the_moment_it_lies_there(shop: Any, root: Any) -> None:
    part = shop.part("FOOT")
    shop.use(part, root)
    shop.lot(part, made_at=Moment("2026-11-25T11:00:00Z"))
    moments = ("2026-11-25T10:59:00Z", "2026-11-25T11:00:00Z")
    assert [shop.status(Moment(at)).progress.by_position[1].filled for at in moments] == [0, 1]
