"""What the garbage collector passes by, and when it looks at it after all."""

import gc
import weakref
from collections.abc import Iterator

import pytest

from buildlog.facts.collection import THAWED_AFTER, keep_for_good, keep_no_longer, look_at_all, no_collection


class Ring:
    """Holds itself: only the garbage collector finds that nobody else does."""

    def __init__(self) -> None:
        self.itself = self


@pytest.fixture
def kept() -> Iterator[None]:
    keep_for_good()
    yield
    keep_no_longer()


def _is_looked_through(thing: object) -> bool:
    return any(one is thing for one in gc.get_objects())


def test_what_was_made_meanwhile_is_looked_through_as_something_old() -> None:
    with no_collection():
        row = Ring()
    assert any(one is row for one in gc.get_objects(generation=2))


def test_what_is_made_once_something_is_kept_for_good_is_passed_by(kept: None) -> None:
    with no_collection():
        row = Ring()
    assert not _is_looked_through(row)
    assert gc.isenabled()


def test_what_is_made_within_is_passed_by_once_the_outermost_ends(kept: None) -> None:
    with no_collection():
        with no_collection():
            row = Ring()
        assert _is_looked_through(row)
    assert not _is_looked_through(row)


def test_a_ring_that_was_kept_goes_when_much_was_kept_and_all_is_looked_at(kept: None) -> None:
    ring = Ring()
    gone = weakref.ref(ring)
    with no_collection():
        pass
    del ring
    look_at_all()
    assert gone() is not None
    for _ in range(THAWED_AFTER):
        with no_collection():
            pass
    look_at_all()
    assert gone() is None


def test_after_a_sitting_all_is_looked_through_as_before() -> None:
    keep_for_good()
    with no_collection():
        row = Ring()
    keep_no_longer()
    assert _is_looked_through(row)
