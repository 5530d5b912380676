"""Every question in words and as JSON: the same figures, from the same rows."""

import json
from typing import Any

import pytest

from buildlog.wording import grams, hours, money

QUESTIONS = ("status", "blockers", "hours", "stock", "fits --all", "now")
WORDS = {"_mg": grams, "_minutes": hours, "_minor": lambda minor: money(minor, "EUR")}
PLAIN_MINUTES = {"bench_minutes", "minutes"}
"""Set in plain minutes in the tables of fits and of what can be done now."""


def shown(key: str, value: Any) -> set[str]:
    """The ways in which a table may show a raw value; empty where it shows it in words of its own."""
    if (
        value is None
        or value == ""
        or isinstance(value, bool)
        or key.endswith(("_at", "by", "until", "depth", "way"))
    ):
        return set()
    if isinstance(value, list):
        return {f"{value[0]}/{value[1]}"}
    words = next((say for ending, say in WORDS.items() if key.endswith(ending)), None)
    if words:
        return {words(value), str(value)} if key in PLAIN_MINUTES else {words(value)}
    return {f"{value:.2f}"} if isinstance(value, float) else {str(value)}


@pytest.mark.parametrize("question", QUESTIONS)
def test_json_holds_the_figures_that_the_text_shows(story: Any, question: str) -> None:
    tables = {k: v for k, v in story(f"{question} --json").json.items() if k not in ("now", "positions", "parts")}
    if question == "now":
        tables = story("now --json").json
    lines = story(question).out.splitlines()
    rows = [row for table in tables.values() if isinstance(table, list) for row in table]
    assert rows
    for row in rows:
        wanted = [shown(key, value) for key, value in row.items() if value != 0]
        assert any(all(any(way in line for way in ways) for ways in wanted if ways) for line in lines), row


def test_every_question_answers_an_empty_ledger(shell: Any) -> None:
    for question in QUESTIONS:
        assert shell(question).code == 0
        assert isinstance(shell(f"{question} --json").json, dict)
    assert shell("alerts --json").json["alerts"] == []


def test_a_terminal_gets_no_line_wider_than_it_is(story: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    from rich.cells import cell_len

    piped = story("blockers").out
    assert max(map(cell_len, piped.splitlines())) > 70
    monkeypatch.setenv("COLUMNS", "70")
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)
    lines = story("blockers").out.splitlines()
    assert max(map(cell_len, lines)) <= 70
    assert len(lines) >= len(piped.splitlines())


def test_the_hours_in_json_have_the_sum_its_spread_and_what_comes_on_top(story: Any) -> None:
    text = story("hours").out
    left = json.loads(story("hours --json").out)["hours_left"]
    for name in ("total_minutes", "low_minutes", "high_minutes", "with_on_top_minutes"):
        assert hours(left[name]) in text
    assert f"×{left['on_top_factor']:.2f}" in text
    assert all(code in text for code in left["without_figures"])
    assert left["low_minutes"] < left["total_minutes"] < left["high_minutes"]
