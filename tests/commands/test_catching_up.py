"""`buildlog catch-up`: the list, and an answer to one of it."""

import json
from collections.abc import Callable
from typing import Any

import pytest

Shell = Callable[..., Any]


@pytest.fixture
def left(story: Shell, clock: Any) -> Shell:
    """The story of a build, in which a print runs and another one waits, and nothing said for a week."""
    clock.move_on(days=7)
    return story


def numbers(shell: Shell) -> dict[str, int]:
    return {row["key"]: row["number"] for row in shell("catch-up --json").json["catch_up"]}


def prints(shell: Shell) -> list[dict[str, Any]]:
    return [row for row in shell("catch-up --json").json["catch_up"] if row["kind"] == "print"]


def test_what_should_have_happened_is_listed_with_numbers_and_as_json(left: Shell) -> None:
    said = left("catch-up")
    assert said.code == 0
    assert "Should have happened" in said.out
    running, queued = prints(left)
    assert running["told"].startswith("ended ")
    assert queued["told"].startswith("began ")
    assert (running["as_planned"], running["not_done"]) == ("all pieces good", "still runs")
    assert [row["number"] for row in json.loads(left("catch-up --json").out)["catch_up"]][:2] == [1, 2]


def test_as_planned_records_it_as_of_its_moment(left: Shell) -> None:
    running, _ = prints(left)
    assert "Finished" in left(f"catch-up {running['number']} as-planned").err
    groups = left("journal --json -n 1").json
    assert groups[0]["at"] == running["due_at"]
    assert running["key"] not in numbers(left)


def test_failed_takes_what_it_asks_as_fields_and_names_them(left: Shell) -> None:
    running, _ = prints(left)
    wrong = left(f"catch-up {running['number']} failed why=warped")
    assert wrong.code != 0
    assert "cause=… (cause)" in wrong.err
    said = left(f"catch-up {running['number']} failed", "cause=warped", "--at", "Thu 9:00")
    assert (said.code, "failed after" in said.err) == (0, True)


def test_not_done_and_later_record_nothing(left: Shell) -> None:
    before = left("journal --json").json
    running, _ = prints(left)
    for answer in ("not-done", "later"):
        assert "Nothing was recorded" in left(f"catch-up {running['number']} {answer}").err
    assert left("journal --json").json == before


def test_a_dry_run_writes_nothing(left: Shell) -> None:
    before = left("journal --json").json
    running, _ = prints(left)
    assert "(dry run)" in left(f"catch-up {running['number']} as-planned --dry-run").err
    assert left("journal --json").json == before


@pytest.mark.parametrize(("words", "told"), [("999 later", "there is no 999"), ("1 maybe", "as-planned, failed")])
def test_a_number_or_an_answer_that_is_not_there_is_refused(left: Shell, words: str, told: str) -> None:
    said = left(f"catch-up {words}")
    assert said.code != 0
    assert told in said.err
