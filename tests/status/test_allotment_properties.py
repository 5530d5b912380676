"""What holds of any build, whatever lies on the shelf."""

from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildlog.status.blocker import BlockerKind
from buildlog.status.slot import Holds
from buildlog.terms import Grade, JobState, LotEntryKind, Moment, OldGoodFor, Side, StepKind

ANY_SHOP = settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
SIDES = (Side.LEFT, Side.RIGHT)

lots = st.tuples(st.integers(1, 4), st.sampled_from(SIDES), st.sampled_from(Grade), st.booleans())
parts = st.lists(
    st.fixed_dictionaries(
        {
            "handed": st.booleans(),
            "where": st.integers(0, 3),
            "quantity": st.integers(1, 4),
            "second_will_do": st.booleans(),
            "spares_wanted": st.integers(0, 2),
            "old": st.sampled_from([None, *OldGoodFor]),
            "lots": st.lists(lots, max_size=4),
            "prints": st.lists(st.tuples(st.integers(1, 3), st.sampled_from(SIDES), st.booleans()), max_size=2),
            "fitted": st.lists(st.tuples(st.integers(0, 5), st.integers(1, 4), st.booleans()), max_size=4),
            "steps": st.booleans(),
        }
    ),
    max_size=4,
)


def build_up(shop: Any, described: list[dict[str, Any]]) -> Any:
    """ROOT with a pair LEG that has two TOEs, and a HEAD; parts, pieces, prints and fittings as described."""
    root = shop.assembly("ROOT", shop.build())
    legs = shop.assembly("LEG", root, paired=True)
    places = [root, legs, shop.assembly("TOE", legs, count=2), shop.assembly("HEAD", root)]
    shop.step(legs, StepKind.ASSEMBLE)
    shop.printer()
    for number, told in enumerate(described):
        place = places[told["where"]]
        handed = told["handed"] and told["where"] in (1, 2)
        part = shop.part(f"P{number}", handed=handed)
        wanted = {key: told[key] for key in ("second_will_do", "spares_wanted")}
        usage = shop.use(part, place, told["quantity"], **wanted)
        if told["steps"]:
            shop.step(part, StepKind.SAND)
        if told["old"] is not None:
            shop.revise(part, "B", Moment("2026-11-05T08:00:00Z"), told["old"])
        for quantity, side, grade, lent in told["lots"]:
            lot = shop.lot(part, quantity, side if handed else Side.NONE, grade=grade)
            if lent:
                shop.happens(lot, LotEntryKind.LENT)
        for quantity, side, running in told["prints"]:
            state = JobState.RUNNING if running else JobState.QUEUED
            shop.prints(part, quantity, side if handed else Side.NONE, state)
        fit_some(shop, part, place, usage, told)
    return root


def fit_some(shop: Any, part: Any, place: Any, usage: Any, told: dict[str, Any]) -> None:
    taken = set()
    for index, number, stand_in in told["fitted"]:
        positions = shop.positions(place)
        position = positions[index % len(positions)]
        if number <= told["quantity"] and (position.id, number) not in taken:
            taken.add((position.id, number))
            lot = shop.lot(part, 1, position.side if part.handed else Side.NONE)
            shop.fit(lot, position, usage, number, stand_in=stand_in)


@pytest.fixture
def built(new_shop: Callable[[], Any]) -> Callable[..., Any]:
    def make(described: list[dict[str, Any]]) -> Any:
        shop = new_shop()
        build_up(shop, described)
        return shop

    return make


@ANY_SHOP
@given(described=parts)
def test_needed_is_usable_and_under_way_and_to_get(built: Any, described: list[dict[str, Any]]) -> None:
    shop = built(described)
    needs = shop.status().needs
    slots = Counter((slot.part, slot.side) for slot in needs.slots)
    assert {key: need.needed for key, need in needs.by_part.items()} == dict(slots)
    for need in needs.by_part.values():
        assert need.needed == need.usable + need.under_way + need.to_get
        assert min(need.usable, need.under_way, need.to_get, need.spares_to_get) >= 0


@ANY_SHOP
@given(described=parts)
def test_no_piece_is_allotted_twice(built: Any, described: list[dict[str, Any]]) -> None:
    shop = built(described)
    needs = shop.status().needs
    allotted = Counter(slot.piece for slot in needs.slots if slot.holds is Holds.ALLOTTED)
    for lot_id, pieces in allotted.items():
        lot = shop.rows["lots"][lot_id - 1]
        gone = sum(e.pieces for e in shop.rows["lot_entries"] if e.lot_id == lot_id)
        assert pieces <= lot.quantity - gone
    lines = Counter(slot.line for slot in needs.slots if slot.line is not None)
    assert all(pieces <= shop.rows["job_lines"][line_id - 1].quantity for line_id, pieces in lines.items())
    stands = [slot.fitting for slot in needs.slots if slot.fitting is not None]
    assert len(stands) == len(set(stands)) == len(shop.rows["fittings"])
    left = {lot_id: pieces for lots in needs.free_lots.values() for lot_id, pieces in lots}
    assert all(left[lot_id] + allotted[lot_id] <= shop.rows["lots"][lot_id - 1].quantity for lot_id in left)


@ANY_SHOP
@given(described=parts)
def test_nothing_is_to_get_while_a_piece_that_would_do_is_left_over(built: Any, described: Any) -> None:
    shop = built(described)
    needs = shop.status().needs
    grades = {lot.id: lot.grade for lot in shop.rows["lots"]}
    for (part_id, side), lots in needs.free_lots.items():
        if any(grades[lot_id] is Grade.GOOD for lot_id, _ in lots):
            need = needs.by_part.get((part_id, side))
            assert need is None or need.under_way == need.to_get == 0


@ANY_SHOP
@given(pieces=st.integers(0, 30), quantity=st.integers(1, 5), toes=st.integers(1, 3))
def test_sides_fill_in_step(new_shop: Any, pieces: int, quantity: int, toes: int) -> None:
    shop = new_shop()
    legs = shop.assembly("LEG", shop.assembly("ROOT", shop.build()), paired=True)
    feet = shop.assembly("TOE", legs, count=toes)
    part = shop.part("CLAW")
    shop.use(part, feet, quantity)
    if pieces:
        shop.lot(part, pieces)
    sides = {position.id: position.side for position in shop.rows["positions"]}
    served = Counter(sides[s.position] for s in shop.status().needs.slots if s.holds is Holds.ALLOTTED)
    assert 0 <= served[Side.LEFT] - served[Side.RIGHT] <= 1


PIECES = {
    BlockerKind.NOT_PRINTED,
    BlockerKind.NEEDS_PREPARING,
    BlockerKind.NO_FIGURES,
    BlockerKind.NO_PRINTER,
    BlockerKind.NO_MATERIAL,
}


@ANY_SHOP
@given(described=parts)
def test_a_position_lacks_pieces_exactly_as_long_as_they_are_to_get(built: Any, described: Any) -> None:
    shop = built(described)
    status = shop.status()
    lacking = {slot.position for slot in status.needs.slots if slot.holds is Holds.TO_GET}
    assert {p for p, found in status.blockers.leaves.items() if any(b.kind in PIECES for b in found)} == lacking
    for need in status.needs.by_part.values():
        if need.to_get:
            current = [r.id for r in shop.rows["revisions"] if r.part_id == need.part_id][-1]
            shop.lot(shop.rows["parts"][need.part_id - 1], need.to_get, need.side, revision_id=current)
    after = shop.status()
    assert not any(slot.holds is Holds.TO_GET for slot in after.needs.slots)
    assert not any(leaf.kind in PIECES for found in after.blockers.leaves.values() for leaf in found)


@ANY_SHOP
@given(described=parts)
def test_ready_is_exactly_having_no_leaf_at_or_below(built: Any, described: Any) -> None:
    shop = built(described)
    status = shop.status()
    for position in shop.rows["positions"]:
        told = status.progress.by_position[position.id]
        assert told.ready == (status.blockers.closure(position.id) == ())
        assert told.blockers_beneath == len(status.blockers.closure(position.id))
        assert 0 <= told.filled <= told.slots
        assert told.printed_minutes <= told.printed_total
