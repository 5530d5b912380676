"""The everyday property test of the record with longer stories and more of them."""

import importlib.util
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

STORIES = 100


def beside(name: str) -> Any:
    """A module of the everyday tests of the record; they are files, not a package."""
    spec = importlib.util.spec_from_file_location(
        f"everyday_{name}", Path(__file__).parents[1] / "record" / f"{name}.py"
    )
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


fixtures, everyday = beside("conftest"), beside("test_any_order")
shop, do, begun = fixtures.shop, fixtures.do, everyday.begun
holds = everyday.test_any_facts_in_any_order_keep_the_rules_and_come_back_exactly.hypothesis.inner_test


@settings(
    max_examples=STORIES,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(told=st.lists(st.tuples(everyday.HOURS, everyday.WISHES), min_size=15, max_size=40))
def test_long_stories_in_any_order_keep_the_rules_and_come_back_exactly(begun, tmp_path, clock, told):
    holds(begun, tmp_path, clock, told)
