"""The everyday property tests of the record with longer stories and more of them, and what is exported of those."""

import importlib.util
import itertools
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from buildlog.errors import Refused
from buildlog.files import read_into
from buildlog.ledger import Ledger
from buildlog.proposals.revisions import Revise

STORIES = 100


def beside(name: str, of: str = "record") -> Any:
    """A module of the everyday tests of the record, as `actions/test_x`; they are files, not a package."""
    path = Path(__file__).parents[1] / of / f"{name}.py"
    spec = importlib.util.spec_from_file_location(f"everyday_{path.stem}", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


fixtures, everyday, together = beside("conftest"), beside("test_any_order"), beside("actions/test_pieces_together")
exported = beside("test_past_out", "intake")
out, written = exported.out, beside("conftest", "intake").written
shop, legs, do, begun, copies = fixtures.shop, fixtures.legs, fixtures.do, everyday.begun, together.copies
holds = everyday.test_any_facts_in_any_order_keep_the_rules_and_come_back_exactly.hypothesis.inner_test


@settings(
    max_examples=STORIES,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(told=st.lists(st.tuples(everyday.HOURS, everyday.WISHES), min_size=15, max_size=40))
def test_long_stories_in_any_order_keep_the_rules_and_come_back_exactly(begun, tmp_path, clock, told):
    holds(begun, tmp_path, clock, told)


MANY = settings(max_examples=STORIES, suppress_health_check=list(HealthCheck))
LONG_STORIES = st.lists(st.tuples(together.wishes, together.moments), min_size=10, max_size=40)
keeps_pieces = together.test_no_story_breaks_a_rule_or_loses_a_piece.hypothesis.inner_test
turns_back = together.test_every_story_is_undone_and_redone_to_the_same_rows.hypothesis.inner_test


@MANY
@given(story=LONG_STORIES)
def test_no_long_story_breaks_a_rule_or_loses_a_piece(copies, story):
    keeps_pieces(copies, story)


@MANY
@given(story=LONG_STORIES)
def test_every_long_story_is_undone_and_redone_to_the_same_rows(copies, story):
    turns_back(copies, story)


NUMBERS = itertools.count()


@pytest.fixture
def anew(tmp_path, empty_ledger_file, clock):
    """``anew(files)``: an empty ledger with what the files say, which say nothing new to it any more."""

    def read(files):
        path = tmp_path / f"anew-{next(NUMBERS)}.db"
        path.write_bytes(empty_ledger_file.read_bytes())
        ledger = Ledger.open(path, tmp_path / "backups", clock)
        read_into(ledger, files)
        assert read_into(ledger, files).group_id is None
        return ledger

    return read


def without_file(prints):
    """A print of a file that came out as the other side is told by its lines."""
    return {when: (*how[:2], *how[3:]) for when, how in prints.items()}


@MANY
@given(told=st.lists(st.tuples(everyday.HOURS, everyday.WISHES), min_size=8, max_size=25))
def test_the_prints_and_the_shelf_of_any_story_are_told_to_an_empty_ledger(begun, tmp_path, clock, out, anew, told):
    ledger = Ledger(begun.backup(tmp_path / f"{next(NUMBERS)}.db"), tmp_path, clock)
    for hour, wish in told:
        with suppress(Refused):
            ledger.record(everyday.with_moments(wish), everyday.at_hour(hour))
    prints = exported.prints_of(ledger)
    ended = [job for job in ledger.snapshot().jobs if job.ended_at is not None]
    assume(len(prints) == len(ended))  # a list knows a print by its start: no two of no length at one moment
    other = anew(out(ledger, *exported.ALL))
    assert without_file(exported.prints_of(other)) == without_file(prints)
    assert exported.shelf_of(other) == exported.shelf_of(ledger)
    ledger.close()
    other.close()


@MANY
@given(story=LONG_STORIES)
def test_the_counts_of_any_story_leave_its_shelf_as_it_is_and_tell_it_to_an_empty_ledger(copies, out, anew, story):
    ledger = copies()
    together.tell_all(ledger, [(wish, at) for wish, at in story if not isinstance(wish, Revise)])
    before, lots = exported.shelf_of(ledger, boxes=True), len(ledger.snapshot().lots)
    files = out(ledger, *exported.ALL)
    read_into(ledger, files[2:])
    assert exported.shelf_of(ledger, boxes=True) == before
    assert len(ledger.snapshot().lots) == lots
    other = anew(files)
    assert exported.shelf_of(other) == exported.shelf_of(ledger)
    ledger.close()
    other.close()
