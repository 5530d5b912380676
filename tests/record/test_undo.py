"""Undo and redo: a group's rows as they were, unless something stands on them."""

from typing import Any

import pytest
from sqlmodel import Session, update

from buildlog.errors import NothingToUndo, UndoRefused
from buildlog.ledger import Ledger
from buildlog.proposals.nouns import Change
from buildlog.record.tables.builds import Build


def names(ledger: Ledger) -> list[str]:
    return [build.name for build in ledger.snapshot().builds]


def test_undo_takes_the_newest_wish_back_and_redo_puts_it_back(ledger: Ledger, add: Any) -> None:
    add("build", code="LB", name="Lantern Beetle")
    ledger.record(Change("build", "LB", {"name": "Beetle"}))
    ledger.undo()
    assert names(ledger) == ["Lantern Beetle"]
    ledger.undo()
    assert names(ledger) == []
    ledger.redo()
    ledger.redo()
    assert names(ledger) == ["Beetle"]


def test_a_new_wish_ends_redo(ledger: Ledger, add: Any) -> None:
    add("build", code="LB", name="Lantern Beetle")
    ledger.undo()
    add("build", code="DC", name="Drum Cart")
    with pytest.raises(NothingToUndo, match="redo"):
        ledger.redo()


def test_undoing_a_named_group_is_refused_when_a_later_one_changed_the_same_row(ledger: Ledger, add: Any) -> None:
    first = add("build", code="LB", name="Lantern Beetle").group_id
    later = ledger.record(Change("build", "LB", {"name": "Beetle"})).group_id
    with pytest.raises(UndoRefused, match=f"group {later}"):
        ledger.undo(first)
    assert names(ledger) == ["Beetle"]


def test_undoing_is_refused_when_a_later_row_refers_to_what_would_go(ledger: Ledger, add: Any) -> None:
    first = add("build", code="LB", name="Lantern Beetle").group_id
    later = add("assembly", code="BEETLE", name="Beetle", build="LB").group_id
    with pytest.raises(UndoRefused, match=f"group {later}"):
        ledger.undo(first)
    assert len(ledger.snapshot().assemblies) == 1


def test_u_takes_back_only_what_this_program_wrote(ledger: Ledger, add: Any, clock: Any) -> None:
    add("build", code="LB", name="Lantern Beetle")
    other = Ledger.open(ledger.path, ledger.backups, clock)
    with pytest.raises(NothingToUndo):
        other.undo(own=True)
    other.undo()
    assert names(ledger) == []
    other.close()


def test_groups_from_before_an_upgrade_are_read_but_not_taken_back(ledger: Ledger, add: Any) -> None:
    add("build", code="LB", name="Lantern Beetle")
    with ledger.writer().session() as session:
        session.connection().exec_driver_sql("UPDATE journal_group SET head = '0000'")
    with pytest.raises(UndoRefused, match="before an upgrade"):
        ledger.undo()
    assert ledger.journal()[0].summary


def test_bulk_statements_that_would_pass_the_journal_by_are_refused(ledger: Ledger, add: Any) -> None:
    add("build", code="LB", name="Lantern Beetle")

    def in_bulk(session: Session) -> None:
        session.exec(update(Build).values(name="x"))  # type: ignore[call-overload]  # what must be refused

    with pytest.raises(RuntimeError, match="bulk"), ledger.writer().session() as session:
        in_bulk(session)
    assert names(ledger) == ["Lantern Beetle"]


def test_a_dry_run_shows_the_rows_and_writes_nothing(ledger: Ledger) -> None:
    from buildlog.proposals.nouns import Add, form_from_texts

    wish = Add(form_from_texts("build", {"code": "LB", "name": "Lantern Beetle"}))
    outcome = ledger.record(wish, dry_run=True)
    assert outcome.group_id is None
    assert [entry[0] for entry in outcome.entries] == ["build"]
    assert names(ledger) == []
    assert ledger.journal() == ()


def test_a_count_is_not_taken_back_when_the_pieces_it_found_are_gone_since(legs: Ledger, tell: Any) -> None:
    tell("count_part", part="TIP", pieces="2")
    tell("count_lot", what="#1", pieces="5")
    counting = legs.journal()[0].id
    tell("mark_missing", what="#1", pieces="4")
    with pytest.raises(UndoRefused, match="«a lot gives no more pieces than it holds»"):
        legs.undo(counting)


def test_taking_out_is_not_taken_back_when_something_else_was_put_there_since(legs: Ledger, tell: Any) -> None:
    tell("count_part", part="SHIN", side="L", pieces="3")
    tell("fit_piece", slot="LEG L / SHIN 1")
    tell("take_out", slot="LEG L / SHIN 1")
    taking_out = legs.journal()[0].id
    tell("fit_piece", slot="LEG L / SHIN 1", piece="#1")
    later = legs.journal()[0].id
    fitted = legs.snapshot().fittings
    with pytest.raises(UndoRefused, match=rf"\(group {later}\) has taken its place. Take that back first"):
        legs.undo(taking_out)
    assert legs.snapshot().fittings == fitted
