"""After a change only what the journal names is read again, and only what rests on it is reckoned again."""

import sqlite3
from contextlib import closing

from buildlog.facts.snapshot import INDEXED
from buildlog.ledger import Ledger
from buildlog.proposals.printers import PrinterDown
from buildlog.proposals.spools import WeighSpool
from buildlog.record.reader import SNAPSHOT_FIELDS
from buildlog.status.status import take_stock
from buildlog.terms import Moment


def by_hand(ledger, statement):
    """As with a program that knows nothing of the journal."""
    with closing(sqlite3.connect(ledger.path)) as connection, connection:
        connection.execute(statement)


def unlike(one, other):
    """Nouns whose rows are not the very same objects."""
    return {name for name in SNAPSHOT_FIELDS if getattr(one, name) is not getattr(other, name)}


def test_an_unchanged_ledger_gives_the_very_same_snapshot_again(shop):
    assert shop.snapshot() is shop.snapshot()
    assert shop.snapshot() is shop.snapshot(afresh=True)


def test_only_nouns_of_which_a_row_was_written_are_read_again(shop, do):
    before = shop.snapshot()
    do("weigh_spool", spool="B1", gross="900")
    assert unlike(before, shop.snapshot()) == {"spool_entries"}


def test_rows_that_did_not_change_stay_the_same_objects(shop, add):
    before = shop.snapshot()
    add("spool", code="B3", material="ABS-BLACK")
    after = shop.snapshot()
    assert [one is other for one, other in zip(before.spools, after.spools, strict=False)] == [True] * 4
    assert [spool.code for spool in after.spools] == ["B1", "B2", "R1", "T1", "B3"]


def test_what_an_undo_takes_away_is_gone_from_the_next_snapshot(shop, add):
    before = shop.snapshot()
    add("spool", code="B3", material="ABS-BLACK")
    assert len(shop.snapshot().spools) == 5
    shop.undo()
    assert shop.snapshot() == before


def test_what_another_program_writes_is_read(shop, tmp_path, clock):
    shop.snapshot()
    other = Ledger(shop.path, tmp_path, clock)
    other.record(WeighSpool(spool="B1", gross=900_000))
    other.close()
    assert shop.snapshot().spool_entries[-1].gross_mg == 900_000


def test_what_was_written_past_the_journal_is_read(shop):
    shop.snapshot()
    by_hand(shop, "UPDATE spool SET code = 'BY-HAND' WHERE code = 'B1'")
    assert shop.snapshot().spools[0].code == "BY-HAND"


def test_what_was_written_past_the_journal_beside_an_action_is_read_once_all_is_read_afresh(shop, do):
    shop.snapshot()
    by_hand(shop, "UPDATE spool SET code = 'BY-HAND' WHERE code = 'B1'")
    do("weigh_spool", spool="B2", gross="900")
    before = shop.snapshot()
    after = shop.snapshot(afresh=True)
    assert after.spools[0].code == "BY-HAND"
    assert unlike(before, after) == {"spools"}


def test_a_backup_brought_back_is_read_as_a_whole_though_its_journal_goes_on_with_the_same_numbers(shop, do):
    copy = shop.backup()
    do("weigh_spool", spool="B1", gross="900")
    assert shop.snapshot().spool_entries[-1].gross_mg == 900_000
    shop.restore(copy)
    do("open_spool", spool="B2")
    do("weigh_spool", spool="B2", gross="800")
    assert [entry.gross_mg for entry in shop.snapshot().spool_entries if entry.gross_mg] == [800_000]


def test_an_index_is_kept_exactly_as_long_as_its_rows(shop, add):
    before = shop.snapshot()
    made = {name: getattr(before, name) for name in INDEXED}
    add("spool", code="B3", material="ABS-BLACK")
    after = shop.snapshot()
    assert all(getattr(after, name) is index for name, index in made.items())
    add("part", code="CLAW", name="Claw", build="LB")
    changed = {name for name in INDEXED if getattr(shop.snapshot(), name) is not made[name]}
    assert changed == {"part", "revision", "revisions_of"}


def test_answers_are_kept_as_the_same_objects_where_nothing_that_they_rest_on_changed(shop, clock):
    before = take_stock(shop.snapshot(), shop.now())
    shop.record(WeighSpool(spool="B1", gross=900_000))
    clock.move_on(minutes=1)
    after = take_stock(shop.snapshot(), shop.now(), before)
    assert after.needs is before.needs
    assert after.hours.pieces is before.hours.pieces
    assert after.accounts.spools[1].net_mg != before.accounts.spools[1].net_mg


def test_what_was_planned_for_later_comes_about_when_its_moment_is_reached(shop, clock, follow):
    """A printer is down until a moment that nobody touches the ledger at."""
    shop.record(PrinterDown(printer="P1", until=Moment("2026-11-25T14:00:00Z")))
    followed = follow(shop)
    assert followed.status.accounts.set_up[1].is_down
    clock.move_on(hours=3)
    followed.look()
    assert not followed.status.accounts.set_up[1].is_down


def test_a_clock_that_is_set_back_is_believed(shop, do, clock, follow):
    do("start_print", file="F1", printer="P1", spools="B1")
    clock.move_on(hours=5)
    followed = follow(shop)
    clock.move_on(hours=-4)
    followed.look()
