"""Whatever is recorded of prints and stock, in whatever order of time: no rule breaks, no gram appears or vanishes,
undo and redo are exact.
"""

import itertools
import sqlite3
from contextlib import closing, suppress
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildlog.errors import NothingToUndo, Refused, UndoRefused
from buildlog.ledger import Ledger
from buildlog.proposals import bought, orders, printers, prints, spools
from buildlog.proposals.lines import Line
from buildlog.proposals.lots import DamagePieces, ScrapPieces
from buildlog.proposals.outcomes import read_outcomes
from buildlog.proposals.places import read_pieces
from buildlog.record.tables import JOURNAL_TABLES, TABLES
from buildlog.status.accounts import settle, spool_corrections
from buildlog.terms import Moment, Side, SpoolEntryKind, moment, when

HOURS = st.integers(0, 60)
JOB = st.integers(1, 5)
PRINTER = st.sampled_from(["P1", "P2"])
SPOOL = st.sampled_from(["B1", "B2", "R1"])
HEAD = st.integers(1, 2)
GRAMS = st.none() | st.integers(0, 600_000)
ORDERED = (Line("ABS-BLACK", Side.NONE, 2), Line("SCREW", Side.NONE, 60))
HINGES = (Line("HINGE", Side.NONE, 3), Line("FL07", Side.LEFT, 1))
OUTCOMES = st.sampled_from(["", "HINGE x1 scrap", "HINGE second", "FL07 L scrap", "FL07 scrap, HINGE good"]).map(
    read_outcomes
)
MOMENTS = st.none() | HOURS
NAMED = st.sampled_from(["FL07L-A", "FL07R-A", "HINGE"]).map(read_pieces)

STARTS = [
    st.builds(
        prints.StartPrint, printer=PRINTER, spools=st.tuples(SPOOL), anyway=st.just(True), ended=MOMENTS, **what
    )
    for what in ({"file": st.just("F1")}, {"lines": st.just(HINGES)})
]
ENDS = st.one_of(
    st.builds(prints.FinishPrint, printer=PRINTER, outcomes=OUTCOMES, other_side=st.booleans(), grams=GRAMS),
    st.builds(prints.FailPrint, printer=PRINTER, outcomes=OUTCOMES, stopped=MOMENTS, ran_on=st.booleans()),
)
SWAPS = st.builds(prints.SwapSpool, printer=PRINTER, spool=SPOOL, grams=GRAMS, anyway=st.just(True))
CORRECTIONS = st.one_of(
    st.builds(prints.CorrectPrint, job=JOB, outcomes=OUTCOMES, other_side=st.booleans(), grams=GRAMS),
    st.builds(prints.CorrectPrint, job=JOB, started=MOMENTS, ended=MOMENTS, stopped=MOMENTS),
)
QUEUE = st.one_of(
    st.builds(prints.QueuePrint, file=st.just("F1"), printer=st.sampled_from([None, "P1"])),
    st.builds(prints.CancelPrint, job=JOB),
    st.builds(prints.MovePrint, job=JOB, rank=st.integers(1, 3), printer=st.none() | PRINTER),
    st.builds(prints.Restarted, printer=PRINTER),
)
SET_UPS = st.one_of(
    st.builds(printers.LoadSpool, printer=PRINTER, spool=SPOOL, head=HEAD),
    st.builds(printers.UnloadSpool, printer=PRINTER, head=HEAD),
    st.builds(printers.PrinterDown, printer=PRINTER, until=MOMENTS),
    st.builds(printers.PrinterUp, printer=PRINTER),
)
STOCK = st.one_of(
    st.builds(spools.ReceiveSpool, material=st.just("ABS-BLACK"), order=st.sampled_from([None, "O-01"])),
    st.builds(spools.WeighSpool, spool=SPOOL, gross=st.integers(200_000, 1_300_000)),
    st.builds(spools.OpenSpool, spool=SPOOL),
    st.builds(spools.SealSpool, spool=SPOOL),
    st.builds(spools.EmptySpool, spool=SPOOL, reel=GRAMS),
    st.builds(spools.DrawFilament, spool=SPOOL, grams=st.integers(1, 2_000_000)),
    st.builds(bought.ReceiveBought, item=st.sampled_from(["SCREW", "GLUE"]), order=st.sampled_from([None, "O-01"])),
    st.builds(orders.PlaceOrder, lines=st.just(ORDERED)),
    st.builds(orders.ReceiveOrder, order=st.just("O-01")),
    st.builds(orders.CloseOrder, order=st.just("O-01")),
)
PIECES = st.one_of(
    st.builds(DamagePieces, what=NAMED, where=st.just("tip")), st.builds(ScrapPieces, what=NAMED, pieces=st.just(1))
)
WISHES = st.one_of(*STARTS, ENDS, ENDS, SWAPS, SWAPS, CORRECTIONS, CORRECTIONS, QUEUE, SET_UPS, STOCK, PIECES)
TURNS = ("undo", "redo")
NUMBERS = itertools.count()


def rows(ledger: Ledger) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table but the journal."""
    with closing(sqlite3.connect(ledger.path)) as connection:
        return {
            name: connection.execute(f'SELECT * FROM "{name}" ORDER BY id').fetchall()
            for name in TABLES.keys() - JOURNAL_TABLES
        }


def at_hour(hour: int) -> Moment:
    return moment(when(Moment("2026-11-22T08:00:00Z")) + timedelta(hours=hour))


def with_moments(wish):
    """Hours of the wish as moments."""
    for name in ("ended", "stopped", "started", "until"):
        if isinstance(getattr(wish, name, None), int):
            object.__setattr__(wish, name, at_hour(getattr(wish, name)))
    return wish


@pytest.fixture
def begun(shop, do):
    """A finished print, one that runs, a queued one, and an open order."""
    do("start_print", at_hour(4), lines="FL07 L, HINGE x3", printer="P1", spools="B1")
    do("finish_print", at_hour(14))
    do("start_print", at_hour(30), file="F1", printer="P1")
    do("queue_print", lines="FL07 R, HINGE", printer="P2")
    do("place_order", at_hour(6), lines="ABS-BLACK x2, SCREW x60")
    return shop


def grams_not_accounted_for(ledger: Ledger) -> dict[str, int]:
    """By spool: what is on it against what came, less what was drawn, plus what each reading corrected."""
    snapshot, now = ledger.snapshot(), ledger.now()
    states = settle(snapshot, now).spools
    off: dict[str, int] = {}
    for spool in snapshot.spools:
        entries = snapshot.entries_of_spool.get(spool.id, ())
        drawn = sum(entry.net_mg or 0 for entry in entries if entry.kind is SpoolEntryKind.DRAWN)
        for feed in snapshot.feeds_of_spool.get(spool.id, ()):
            if feed.from_at is not None:
                planned = feed.part_mg + feed.support_mg + feed.purge_mg
                drawn += planned if feed.real_mg is None else feed.real_mg
        corrected = sum(correction.difference for correction in spool_corrections(snapshot, spool.id, now))
        state = states[spool.id]
        off[spool.code] = state.net_mg - state.still_to_draw_mg - (spool.content_mg - drawn + corrected)
    return {code: mg for code, mg in off.items() if mg}


@pytest.mark.slow
@settings(
    max_examples=10,  # a hundred longer ones in tests/long
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(told=st.lists(st.tuples(HOURS, WISHES), min_size=8, max_size=20))
def test_any_facts_in_any_order_keep_the_rules_and_come_back_exactly(begun, tmp_path, clock, told):
    ledger = Ledger(begun.backup(tmp_path / f"{next(NUMBERS)}.db"), tmp_path, clock)
    before = rows(ledger)
    groups = 0
    refusals: list[str] = []
    for hour, wish in told:
        try:
            outcome = ledger.record(with_moments(wish), at_hour(hour))
        except Refused as refusal:
            refusals.append(str(refusal))
        else:
            groups += outcome.group_id is not None
            assert ledger.check() == [], wish
    assert not [said for said in refusals if "The record does not allow this" in said]
    assert grams_not_accounted_for(ledger) == {}
    after = rows(ledger)
    for _ in range(groups):
        ledger.undo()
    assert rows(ledger) == before
    assert grams_not_accounted_for(ledger) == {}
    for _ in range(groups):
        ledger.redo()
    assert rows(ledger) == after
    ledger.close()


@pytest.mark.slow
@settings(
    max_examples=15,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(told=st.lists(st.tuples(HOURS, WISHES | st.sampled_from(TURNS), st.integers(0, 90)), min_size=5, max_size=15))
def test_what_is_followed_through_any_story_is_what_a_first_reading_tells(begun, tmp_path, clock, follow, told):
    began = clock.shows
    ledger = Ledger(begun.backup(tmp_path / f"{next(NUMBERS)}.db"), tmp_path, clock)
    followed = follow(ledger)
    for hour, wish, minutes in told:
        clock.move_on(minutes=minutes)
        with suppress(Refused, UndoRefused, NothingToUndo):
            if wish in TURNS:
                getattr(ledger, wish)()
            else:
                ledger.record(with_moments(wish), at_hour(hour))
        followed.look()
    ledger.close()
    clock.shows = began
