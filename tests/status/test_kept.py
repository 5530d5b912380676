"""Answers are kept exactly as long as what they are made of."""

from __future__ import annotations

import dataclasses
from collections import Counter
from typing import Any

import pytest

from buildlog.facts.builds import Build
from buildlog.facts.snapshot import Snapshot
from buildlog.status.kept import Kept
from buildlog.terms import Moment

NOON, ONE, TWO = (Moment(f"2026-11-25T{hour}:00:00Z") for hour in (12, 13, 14))


@pytest.fixture
def told() -> Counter[str]:
    """How often each question was answered."""
    return Counter()


@pytest.fixture
def count(told: Counter[str]) -> Any:
    """``count(kept, value)`` asks how many builds there are; ``value`` is another answer that it rests on."""

    def ask(kept: Kept, value: object = None, moves: bool = False, answer: Any = None) -> Any:
        def tell() -> Any:
            told["builds"] += 1
            return answer if answer is not None else [len(told)]

        return kept.ask("builds", ("builds",), (value,), tell, moves)

    return ask


@pytest.fixture
def empty(shop: Any) -> Snapshot:
    snapshot: Snapshot = shop.snapshot()
    return snapshot


def test_an_answer_of_the_same_things_is_the_same_object(empty, count, told):
    kept = Kept(empty, NOON)
    assert count(Kept(empty, ONE, kept)) is not None
    first = count(kept)
    assert count(Kept(empty, ONE, kept)) is first
    assert told["builds"] == 2


def test_other_rows_are_answered_anew(empty, count, told):
    kept = Kept(empty, NOON)
    count(kept)
    count(Kept(empty.with_changed(builds=(_build(NOON),)), NOON, kept))
    assert told["builds"] == 2


def test_rows_that_it_does_not_read_change_nothing(empty, count, told):
    kept = Kept(empty, NOON)
    count(kept)
    count(Kept(empty.with_changed(notes=(object(),)), NOON, kept))
    assert told["builds"] == 1


def test_another_answer_that_it_rests_on_is_told_by_identity(empty, count, told):
    kept, value = Kept(empty, NOON), [1]
    count(kept, value)
    count(kept, value)
    count(kept, [1])
    assert told["builds"] == 2


def test_an_answer_that_comes_out_alike_stays_the_same_object(empty, count, told):
    kept = Kept(empty, NOON)
    first = count(kept, 1, answer={"a": 1, "b": 2})
    assert count(kept, 2, answer={"a": 1, "b": 2}) is first
    assert list(count(kept, 3, answer={"b": 2, "a": 1})) == ["b", "a"]
    assert told["builds"] == 3


def test_an_answer_that_moves_is_told_anew_at_another_moment_only(empty, count, told):
    kept = Kept(empty, NOON)
    count(kept, moves=True)
    count(Kept(empty, NOON, kept), moves=True)
    count(Kept(empty, ONE, kept), moves=True)
    assert told["builds"] == 2


@pytest.mark.parametrize(("at", "times"), [(NOON, 1), (ONE, 2), (TWO, 1)])
def test_one_that_does_not_move_is_told_anew_when_a_moment_of_its_rows_has_come(empty, count, told, at, times):
    snapshot = empty.with_changed(builds=(_build(at),))
    kept = Kept(snapshot, NOON)
    count(kept)
    count(Kept(snapshot, ONE, kept))
    assert told["builds"] == times


def test_a_clock_set_back_asks_anew(empty, count, told):
    kept = Kept(empty, ONE)
    count(kept)
    count(Kept(empty, NOON, kept))
    assert told["builds"] == 2


def test_of_many_only_those_that_differ_are_asked_anew(empty, told):
    kept = Kept(empty, NOON)

    def ask(items: dict[str, int], value: object) -> dict[str, str]:
        def tell(key: str, item: int) -> str:
            told[key] += 1
            return f"{key} {item}"

        return kept.ask_each("each", (), (value,), items, tell)

    first = ask({"a": 1, "b": 2}, None)
    assert ask({"b": 2, "a": 1, "c": 3}, None) == {"b": "b 2", "a": "a 1", "c": "c 3"}
    assert told == {"a": 1, "b": 1, "c": 1}
    again = ask({"a": 1, "b": 3}, None)
    assert again == {"a": "a 1", "b": "b 3"}
    assert again["a"] is first["a"]
    ask({"a": 1}, 7)
    assert told == {"a": 2, "b": 2, "c": 1}


def _build(at: Moment) -> Any:
    values: dict[str, Any] = {field.name: None for field in dataclasses.fields(Build)}
    return Build(**(values | {"id": 1, "created_at": at}))
