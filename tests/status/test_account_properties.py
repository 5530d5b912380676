"""What holds of every account, whatever happened in whatever order."""

import random
from collections import Counter

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildlog.facts.printing import Feed, Job
from buildlog.facts.stock import SpoolEntry
from buildlog.status.accounts import PieceState, settle, spool_corrections, spool_history
from buildlog.terms import FigureOrigin, JobState, LotEntryKind, Moment, SpoolEntryKind

MAKER_IS_FRESH = [HealthCheck.function_scoped_fixture]  # it makes a new workshop for every example
NOW = Moment("2026-11-25T12:00:00Z")


def at(hour: int) -> Moment:
    """Hours after the evening of 2 November."""
    return Moment(f"2026-11-{3 + hour // 24:02d}T{hour % 24:02d}:00:00Z")


draws = st.lists(st.tuples(st.integers(0, 400), st.integers(1, 30), st.integers(0, 60_000)), max_size=12)
readings = st.lists(st.tuples(st.integers(0, 430), st.integers(0, 1_000_000)), max_size=5, unique_by=lambda r: r[0])


def record(shop, spool, drawn, read):
    for start, hours, mg in drawn:
        job = shop.row("jobs", Job, state=JobState.FINISHED, queued_at=at(start), started_at=at(start),
                       ended_at=at(start + hours), estimate_minutes=60 * hours)  # fmt: skip
        shop.row("feeds", Feed, job_id=job.id, head=1, material_id=1, spool_id=spool.id, from_at=at(start),
                 to_at=at(start + hours), part_mg=mg, real_mg=mg, real_from=FigureOrigin.TYPED)  # fmt: skip
    for hour, net_mg in read:
        shop.row("spool_entries", SpoolEntry, spool_id=spool.id, at=at(hour), kind=SpoolEntryKind.WEIGHED,
                 gross_mg=net_mg + spool.tare_mg)  # fmt: skip


@settings(max_examples=60, suppress_health_check=MAKER_IS_FRESH)
@given(drawn=draws, read=readings)
def test_grams_are_conserved(new_shop, drawn, read):
    """Content − what was drawn + every correction is what is on the spool, to the milligram."""
    shop = new_shop()
    spool = shop.spool(shop.material())
    record(shop, spool, drawn, read)
    snapshot = shop.snapshot()
    state = settle(snapshot, NOW).spools[spool.id]
    corrected = sum(c.difference for c in spool_corrections(snapshot, spool.id, NOW))
    assert state.net_mg == spool.content_mg - sum(mg for _, _, mg in drawn) + corrected


@settings(max_examples=60, suppress_health_check=MAKER_IS_FRESH)
@given(drawn=draws, read=readings, seed=st.integers(0, 99))
def test_facts_may_come_in_any_order(new_shop, drawn, read, seed):
    shop, other = new_shop(), new_shop()
    spool = shop.spool(shop.material())
    other.spool(other.material())
    record(shop, spool, drawn, read)
    shuffle = random.Random(seed)
    record(other, spool, shuffle.sample(drawn, len(drawn)), shuffle.sample(read, len(read)))
    one, two = (settle(s.snapshot(), NOW).spools[spool.id] for s in (shop, other))
    assert (one.net_mg, one.pm_mg, one.correction) == (two.net_mg, two.pm_mg, two.correction)


@settings(max_examples=40, suppress_health_check=MAKER_IS_FRESH)
@given(drawn=draws, read=readings)
def test_the_quick_balance_is_the_one_that_the_whole_history_tells(new_shop, drawn, read):
    shop = new_shop()
    spool = shop.spool(shop.material())
    record(shop, spool, drawn, read)
    snapshot = shop.snapshot()
    assert spool_history(snapshot, spool.id, NOW)[-1] == (NOW, settle(snapshot, NOW).spools[spool.id].net_mg)


MOVES = st.lists(
    st.sampled_from(["scrapped", "lent", "returned", "missing", "found", "fitted", "taken out"]), max_size=9
)


@settings(max_examples=60, suppress_health_check=MAKER_IS_FRESH)
@given(moves=MOVES)
def test_a_lot_of_one_is_always_in_one_place(new_shop, moves):
    """Moves that the record allows, one after the other."""
    shop = new_shop()
    shop.build()
    lot = shop.lot(shop.part("A"))
    place = "free"
    leads = {
        ("free", "scrapped"): "gone", ("free", "lent"): "lent", ("lent", "returned"): "free",
        ("free", "missing"): "missing", ("missing", "found"): "free", ("free", "fitted"): "fitted",
        ("fitted", "taken out"): "free",
    }  # fmt: skip
    for index, move in enumerate(moves):
        if (place, move) in leads:
            place = leads[place, move]
            shop.happens(lot, LotEntryKind(move), at=at(index))
    state = settle(shop.snapshot(), NOW).lots[lot.id]
    assert (state.state, state.pieces) == (PieceState(place), 0 if place == "gone" else 1)


def test_a_count_leaves_what_it_did_not_find_missing(shop):
    shop.build()
    lot = shop.lot(shop.part("A"), 10)
    shop.happens(lot, LotEntryKind.COUNTED, 7, at=at(5))
    state = settle(shop.snapshot(), NOW).lots[lot.id]
    assert (state.pieces, state.state, state.missing) == (7, PieceState.FREE, 3)


def test_a_lot_not_made_yet_is_not_there(shop):
    shop.build()
    lot = shop.lot(shop.part("A"), 3, made_at=at(100))
    states = Counter(settle(shop.snapshot(), at(hour)).lots[lot.id].state for hour in (99, 100))
    assert states == {PieceState.GONE: 1, PieceState.FREE: 1}
