"""`note` takes a fact in plain words, or any words."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from buildlog.commands.exits import Exit
from buildlog.facts.snapshot import Snapshot
from buildlog.intake.quick.phrases import PHRASES
from buildlog.ledger import Ledger
from buildlog.terms import LotEntryKind

SnapshotOf = Callable[[], Snapshot]


@pytest.fixture
def snapshot_of(tmp_path: Path) -> SnapshotOf:
    def read() -> Snapshot:
        ledger = Ledger.open(tmp_path / "ledger.db")
        try:
            return ledger.snapshot()
        finally:
            ledger.close()

    return read


@pytest.fixture
def stocked(shell: Any) -> Any:
    """The shell, with a build, a part and a spool in the ledger that it opens."""
    shell("add build LB", "Lantern Beetle")
    shell("add material ABS-BLACK Black --polymer ABS")
    shell("spool receive ABS-BLACK --codes BLACK-3 --tare 200")
    shell("add part FL07 Shin --build LB")
    return shell


def test_a_fact_in_plain_words_is_recorded(stocked: Any, snapshot_of: SnapshotOf) -> None:
    said = stocked("note weighed BLACK-3 812 g")
    assert said.code == Exit.OK
    assert "812 g" in said.err
    assert snapshot_of().spool_entries[-1].gross_mg == 812_000
    assert snapshot_of().notes == ()


def test_other_words_are_a_note_on_what_they_name(stocked: Any, snapshot_of: SnapshotOf) -> None:
    stocked("note", "FL07 wants a wider brim")
    stocked("note", "the weather is damp")
    notes = snapshot_of().notes
    assert [(note.noun, note.text) for note in notes] == [
        ("part", "FL07 wants a wider brim"),
        ("build", "the weather is damp"),
    ]


def test_a_scrapped_piece_and_an_order_are_facts_and_no_notes(stocked: Any, snapshot_of: SnapshotOf) -> None:
    stocked("note counted 4 FL07")
    assert stocked("note", "FL07 is scrap, warped").code == Exit.OK
    assert stocked("note", "ordered 2 ABS-BLACK, due +3d").code == Exit.OK
    told = snapshot_of()
    scrapped = [entry for entry in told.lot_entries if entry.kind is LotEntryKind.SCRAPPED]
    assert [(entry.pieces, entry.cause) for entry in scrapped] == [(1, "warped")]
    assert [line.quantity for line in told.order_lines] == [2]
    assert told.notes == ()


def test_words_tell_when_unless_at_does(stocked: Any, snapshot_of: SnapshotOf) -> None:
    stocked("note", "yesterday 23:10 the glue smelled")
    stocked("note", "yesterday 23:10 the glue smelled", "--at", "2026-11-23 10:00")
    assert [note.at for note in snapshot_of().notes] == ["2026-11-24T22:10:00Z", "2026-11-23T09:00:00Z"]


def test_the_moment_that_was_read_is_said_with_its_year_where_that_is_another(stocked: Any) -> None:
    assert stocked("note", "yesterday 23:10 FL07 smelled").err.startswith("Tue 24 Nov 23:10: Noted")
    assert stocked("note", "25 Nov 2024 9:00 FL07 smelled").err.startswith("Mon 25 Nov 2024 09:00: Noted")
    assert stocked("note", "FL07 smelled").err.startswith("Noted")


def test_a_fact_that_lacks_something_is_refused_and_says_what(stocked: Any, snapshot_of: SnapshotOf) -> None:
    said = stocked("note weighed BLACK-3")
    assert said.code == Exit.USAGE
    assert "spool BLACK-3; missing: grams" in said.err
    assert "note:" in said.err
    assert snapshot_of().notes == ()


def test_what_may_be_overruled_is_told_how_and_is_where_the_line_says_so(
    stocked: Any, snapshot_of: SnapshotOf
) -> None:
    stocked("add assembly LEG Leg --build LB")
    stocked("add step LEG-SAND sand --assembly LEG --kind sand --bench-time 10")
    stocked("add step LEG-GLUE glue --assembly LEG --kind bond --bench-time 10")
    said = stocked("note", "glued LEG")
    assert said.code == Exit.REFUSED
    assert "end the line with «anyway»" in said.err
    assert stocked("note", "glued LEG anyway").code == Exit.OK
    assert len(snapshot_of().steps_done) == 1


def test_words_that_begin_with_note_are_a_note(stocked: Any, snapshot_of: SnapshotOf) -> None:
    stocked("note", "note: weighed BLACK-3 by hand")
    assert snapshot_of().notes[-1].text == "weighed BLACK-3 by hand"


def test_what_it_is_about_can_be_named_apart(stocked: Any, snapshot_of: SnapshotOf) -> None:
    stocked("note", "opened BLACK-3", "--about", "part FL07")
    assert (snapshot_of().notes[-1].noun, snapshot_of().notes[-1].text) == ("part", "opened BLACK-3")


def test_a_dry_run_writes_nothing(stocked: Any, snapshot_of: SnapshotOf) -> None:
    said = stocked("note opened BLACK-3 --dry-run")
    assert said.err.startswith("(dry run)")
    assert not snapshot_of().spool_entries


def test_without_words_it_lists_what_can_be_said(shell: Any) -> None:
    said = shell("note")
    assert said.code == Exit.OK
    assert said.out.count("\n") == len(PHRASES)
    assert "weighed BLACK-3 812 g" in said.out
