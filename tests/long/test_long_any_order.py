"""The everyday property tests of the record with longer stories and more of them."""

import importlib.util
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

STORIES = 100


def beside(name: str) -> Any:
    """A module of the everyday tests of the record, as `actions/test_x`; they are files, not a package."""
    path = Path(__file__).parents[1] / "record" / f"{name}.py"
    spec = importlib.util.spec_from_file_location(f"everyday_{path.stem}", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


fixtures, everyday, together = beside("conftest"), beside("test_any_order"), beside("actions/test_pieces_together")
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
