"""Whatever is told, late or not: no rule breaks, no piece appears or vanishes, and all of it undoes and redoes."""

import itertools
import shutil
from collections.abc import Callable
from dataclasses import fields
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildlog.errors import NothingToUndo, Refused
from buildlog.facts.snapshot import Snapshot
from buildlog.ledger import Ledger
from buildlog.methods.piece_account import Entry, Pieces, pieces_at, standings
from buildlog.proposals.lots import (
    CountPart,
    DamagePieces,
    FoundPieces,
    LendPieces,
    MarkMissing,
    MovePieces,
    PiecesBack,
    RepairPieces,
    ScrapPieces,
)
from buildlog.proposals.places import read_pieces, read_place, read_slot
from buildlog.proposals.revisions import RemakePosition, Revise
from buildlog.proposals.slots import ClearSlot, FitPiece, PutStandIn, TakeOut
from buildlog.proposals.steps import ReopenStep, TickStep
from buildlog.terms import Bonded, Moment

MOMENTS = tuple(Moment(f"2026-11-{day:02d}T09:00:00Z") for day in range(10, 20))
DEEDS = ("back to the box", "scrap")

moments = st.sampled_from(MOMENTS)
maybe_moments = st.none() | moments
counts = st.integers(1, 4)
amounts = st.none() | counts
slots = st.sampled_from(["LEG L / SHIN 1", "LEG L / SHIN 2", "LEG R / SHIN", "TOE L.1 / TIP", "LEG L / HINGE"])
pieces = st.sampled_from(["SHIN L", "SHIN R", "TIP", "SHINL-A", "TIP-A", "#1", "#2", "#3"]).map(read_pieces)
legs_named = st.sampled_from(["LEG L", "LEG R"]).map(read_place)
deeds = st.sampled_from(DEEDS)

wishes = st.one_of(
    st.builds(CountPart, part=st.just("SHIN"), side=st.sampled_from("LR"), pieces=st.integers(0, 6)),
    st.builds(CountPart, part=st.just("TIP"), pieces=st.integers(0, 6), box=st.none() | st.just("SHELF")),
    st.builds(ScrapPieces, what=pieces, pieces=amounts),
    st.builds(MarkMissing, what=pieces, pieces=amounts),
    st.builds(FoundPieces, what=pieces, pieces=amounts),
    st.builds(LendPieces, what=pieces, pieces=amounts),
    st.builds(PiecesBack, what=pieces, pieces=amounts),
    st.builds(MovePieces, what=pieces, pieces=amounts, box=st.just("DRAWER")),
    st.builds(DamagePieces, what=pieces, pieces=amounts, where=st.just("tab"), out_of_use=st.booleans()),
    st.builds(RepairPieces, what=pieces, pieces=amounts),
    st.builds(
        FitPiece,
        slot=slots.map(read_slot),
        piece=st.none() | pieces,
        old=st.none() | deeds,
        end_old_at=maybe_moments,
        end_at=maybe_moments,
    ),
    st.builds(PutStandIn, slot=slots.map(read_slot), piece=pieces, old=st.none() | deeds),
    st.builds(TakeOut, slot=slots.map(read_slot), becomes=deeds),
    st.builds(ClearSlot, slot=slots.map(read_slot), becomes=deeds),
    st.builds(Revise, part=st.just("SHIN"), old=st.just("no good"), bonded=st.sampled_from(Bonded)),
    st.builds(RemakePosition, place=legs_named, old=st.sampled_from(["stands in", "scrap"])),
    st.builds(TickStep, step=st.sampled_from(["LEG-SAND", "LEG-BOND"]), place=legs_named, overruled=st.just(True)),
    st.builds(TickStep, step=st.just("TIP-PRIME"), what=pieces, pieces=amounts),
    st.builds(ReopenStep, step=st.just("LEG-BOND"), place=legs_named),
)
stories = st.lists(st.tuples(wishes, moments), min_size=6, max_size=20)


@pytest.fixture
def copies(legs: Ledger, tmp_path: Path) -> Callable[[], Ledger]:
    """Fresh ledgers with nothing but the legs."""
    legs.backup(tmp_path / "legs.db")
    numbers = itertools.count()

    def copy() -> Ledger:
        path = tmp_path / f"copy-{next(numbers)}.db"
        shutil.copy(tmp_path / "legs.db", path)
        return Ledger(path, tmp_path / "copies", legs.clock)

    return copy


BEGINNING = [
    (CountPart(part="SHIN", side="L", pieces=4), MOMENTS[0]),
    (CountPart(part="SHIN", side="R", pieces=1), MOMENTS[0]),
    (CountPart(part="TIP", pieces=3, box="SHELF"), MOMENTS[0]),
]


def tell_all(ledger: Ledger, story: list[tuple[object, Moment]]) -> int:
    """How many wishes of a story were not refused."""
    told = 0
    for wish, at in BEGINNING + story:
        try:
            told += ledger.record(wish, at).group_id is not None
        except Refused:
            continue
    return told


def lots_at(snapshot: Snapshot, at: Moment) -> dict[int, Pieces]:
    entries = {lot.id: [e for e in snapshot.lot_entries if e.lot_id == lot.id] for lot in snapshot.lots}
    return {
        lot.id: pieces_at(
            standings(lot.quantity, lot.made_at, [Entry(e.at, e.kind, e.pieces) for e in entries[lot.id]]), at
        )
        for lot in snapshot.lots
    }


def rows(snapshot: Snapshot) -> dict[str, object]:
    return {f.name: getattr(snapshot, f.name) for f in fields(snapshot) if f.name != "reference"}


@settings(max_examples=10, suppress_health_check=list(HealthCheck))  # more in tests/long
@given(story=stories)
def test_no_story_breaks_a_rule_or_loses_a_piece(copies, story) -> None:
    ledger = copies()
    tell_all(ledger, story)
    snapshot = ledger.snapshot()
    assert ledger.check() == []
    for at in MOMENTS:
        held = lots_at(snapshot, at)
        assert all(pieces.is_possible for pieces in held.values())
        came = sum(lot.quantity for lot in snapshot.lots if lot.parent_id is None and lot.made_at <= at)
        found = sum(pieces.found for pieces in held.values())
        where = sum(p.box + p.fitted + p.lent + p.missing + p.scrapped for p in held.values())
        assert where == came + found
        standing = [
            f.lot_id for f in snapshot.fittings if f.from_at <= at and (f.until_at is None or f.until_at > at)
        ]
        fitted = [lot_id for lot_id, pieces in held.items() if pieces.fitted]
        assert sorted(lot_id for lot_id in standing if lot_id is not None) == fitted
    ledger.close()


@settings(max_examples=6, suppress_health_check=list(HealthCheck))  # more in tests/long
@given(story=stories)
def test_every_story_is_undone_and_redone_to_the_same_rows(copies, story) -> None:
    ledger = copies()
    before = rows(ledger.snapshot())
    told = tell_all(ledger, story)
    after = rows(ledger.snapshot())
    for _ in range(told):
        ledger.undo()
    assert rows(ledger.snapshot()) == before
    for _ in range(told):
        ledger.redo()
    assert rows(ledger.snapshot()) == after
    with pytest.raises(NothingToUndo):
        ledger.redo()
    ledger.close()
