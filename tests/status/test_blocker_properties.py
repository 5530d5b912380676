"""Whatever holds positions, and in whatever order it ends: each blocker is there exactly as long as its cause."""

from collections.abc import Callable
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildlog.facts.stock import BoughtEntry
from buildlog.status.blocker import BlockerKind
from buildlog.terms import (
    BoughtEntryKind,
    FitOutcome,
    LotEntryKind,
    Moment,
    OldGoodFor,
    Origin,
    StepKind,
    WhatThen,
)

End = Callable[[], object]
LATER = Moment("2026-11-25T11:00:00Z")
REVISED = Moment("2026-11-20T08:00:00Z")


def step_open(shop: Any, place: Any) -> End:
    step = shop.step(place, StepKind.SAND)
    return lambda: shop.tick(step, shop.position(place))


def question(shop: Any, place: Any) -> End:
    asked = shop.ask(shop.rows["builds"][0], place)
    return lambda: shop.change("questions", asked, answered_at=LATER)


def waits(shop: Any, place: Any) -> End:
    """Its other end has no cause of its own: a step that nobody counts here."""
    other = shop.assembly(f"OTHER{place.id}", shop.rows["assemblies"][0])
    step = shop.step(other, StepKind.SAND)
    shop.wait(place, other)
    return lambda: shop.tick(step, shop.position(other))


def fitted(shop: Any, place: Any, **how: Any) -> tuple[Any, Any, Any]:
    part = shop.part(f"PART{place.id}")
    usage = shop.use(part, place)
    lot = shop.lot(part)
    return usage, lot, shop.fit(lot, shop.position(place), usage, **how)


def fit_due(shop: Any, place: Any) -> End:
    usage, _, fitting = fitted(shop, place)
    test = shop.fit_test(place, usage)
    return lambda: shop.result(test, shop.position(place), fitting)


def fit_failed(shop: Any, place: Any) -> End:
    usage, _, fitting = fitted(shop, place)
    test = shop.fit_test(place, usage)
    failed = {"outcome": FitOutcome.FAILED, "what_then": WhatThen.REWORK}
    shop.result(test, shop.position(place), fitting, **failed)
    return lambda: shop.result(test, shop.position(place), fitting, at=LATER)


def stand_in(shop: Any, place: Any) -> End:
    part = shop.part(f"PART{place.id}")
    usage = shop.use(part, place)
    piece = shop.lot(part)
    words = shop.fit(None, shop.position(place), usage, what="cardboard", stand_in=True)

    def end() -> None:
        shop.take_out(words, REVISED)
        shop.fit(piece, shop.position(place), usage, from_at=REVISED)

    return end


def take_out(shop: Any, place: Any) -> End:
    part = shop.part(f"PART{place.id}")
    usage = shop.use(part, place)
    old = shop.fit(shop.lot(part), shop.position(place), usage)
    revision = shop.revise(part, "B", REVISED, OldGoodFor.NO_GOOD)
    new = shop.lot(part, revision_id=revision.id, made_at=REVISED)

    def end() -> None:
        shop.take_out(old, LATER)
        shop.fit(new, shop.position(place), usage, from_at=LATER)

    return end


def damaged(shop: Any, place: Any) -> End:
    _, lot, _ = fitted(shop, place)
    shop.lot(next(part for part in shop.rows["parts"] if part.id == lot.part_id))  # another one lies there
    damage = shop.breaks(lot, LATER)

    def end() -> None:
        shop.change("damages", damage, repaired_at=LATER)
        shop.happens(lot, LotEntryKind.REPAIRED, at=LATER)

    return end


def bought_short(shop: Any, place: Any) -> End:
    item = shop.bought(amount=0)
    part = shop.part(f"PART{place.id}", origin=Origin.BOUGHT, bought_item_id=item.id, revised=False)
    shop.use(part, place, 2)
    came = {"bought_item_id": item.id, "at": LATER, "kind": BoughtEntryKind.RECEIVED, "amount": 2}
    return lambda: shop.row("bought_entries", BoughtEntry, **came)


def make_by_hand(shop: Any, place: Any) -> End:
    part = shop.part(f"PART{place.id}", origin=Origin.MADE)
    shop.use(part, place, 2)
    return lambda: shop.lot(part, 2)


CAUSES: dict[BlockerKind, Callable[[Any, Any], End]] = {
    BlockerKind.STEP_OPEN: step_open,
    BlockerKind.QUESTION: question,
    BlockerKind.WAIT: waits,
    BlockerKind.FIT_DUE: fit_due,
    BlockerKind.FIT_FAILED: fit_failed,
    BlockerKind.STAND_IN: stand_in,
    BlockerKind.TAKE_OUT: take_out,
    BlockerKind.DAMAGED: damaged,
    BlockerKind.BOUGHT_SHORT: bought_short,
    BlockerKind.MAKE_BY_HAND: make_by_hand,
}


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    kinds=st.lists(st.sampled_from(sorted(CAUSES)), min_size=1, max_size=8), order=st.randoms(use_true_random=False)
)
def test_a_blocker_is_there_exactly_as_long_as_its_cause(new_shop: Any, kinds: list[BlockerKind], order: Any) -> None:
    shop = new_shop()
    shop.printer()
    root = shop.assembly("ROOT", shop.build())
    holds: dict[int, tuple[BlockerKind, End]] = {}
    for number, kind in enumerate(kinds):
        place = shop.assembly(f"PLACE{number}", root)
        holds[shop.position(place).id] = kind, CAUSES[kind](shop, place)
    ending = list(holds)
    order.shuffle(ending)
    for ended in (None, *ending):
        if ended is not None:
            holds.pop(ended)[1]()
        blockers = shop.status().blockers
        told = {at: [leaf.kind for leaf in blockers.leaves.get(at, ())] for at in {*holds, *ending}}
        assert told == {at: [holds[at][0]] if at in holds else [] for at in told}
        assert blockers.is_ready(shop.position(root).id) is not bool(holds)
