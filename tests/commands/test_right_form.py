"""A command that was typed wrongly is told how it is written."""

from typing import Any

import pytest

from buildlog.commands.exits import Exit
from buildlog.commands.nouns import command_name, positional
from buildlog.proposals.nouns import FORMS, noun_fields

NOUNS = tuple(noun for noun in FORMS if noun != "settings")


def needed(noun: str) -> list[str]:
    return [
        f"--{f.name.replace('_', '-')}" for f in noun_fields(noun) if f.required and f.name not in positional(noun)
    ]


@pytest.mark.parametrize("noun", NOUNS)
def test_what_goes_without_its_name_is_told_where_it_is_named(shell: Any, noun: str) -> None:
    for name in positional(noun):
        said = shell(f"add {command_name(noun)} --{name.replace('_', '-')} X")
        assert said.code == Exit.USAGE
        assert f"{name.upper()} is written in its place, without --{name.replace('_', '-')}." in said.err
        assert f"Write `buildlog add {command_name(noun)} {' '.join(map(str.upper, positional(noun)))}" in said.err


@pytest.mark.parametrize("noun", [noun for noun in NOUNS if needed(noun)])
def test_what_is_missing_is_told_with_all_that_must_be_said(shell: Any, noun: str) -> None:
    said = shell(f"add {command_name(noun)} {' '.join('X' for _ in positional(noun))}")
    assert said.code == Exit.USAGE
    assert "Missing option" in said.err
    written = said.err.partition("Write `")[2].partition("`")[0]
    assert [word for word in written.split() if word.startswith("--")] == needed(noun)


@pytest.mark.parametrize("noun", NOUNS)
def test_words_that_are_left_over_are_told_where_they_may_belong(shell: Any, noun: str) -> None:
    given = " ".join(f"{name} X" for name in needed(noun))
    said = shell(f"add {command_name(noun)} {' '.join('X' for _ in positional(noun))} left over {given}")
    assert said.code == Exit.USAGE
    assert "(left over)" in said.err
    assert "in quotes" in said.err


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("add goal LB 1", "--kind: Goal; ready | shown"),
        ("printer down P1 fan", "told by name: --why, --until"),
        ("spool weigh --spool X 700", "Write `buildlog spool weigh SPOOL GROSS [OPTIONS]`"),
        ("fit record FIT-1 ARM L passed", "--measured, --what-then"),
    ],
)
def test_daily_actions_tell_their_right_form_too(shell: Any, line: str, words: str) -> None:
    said = shell(line)
    assert said.code == Exit.USAGE
    assert words in said.err


def test_a_group_is_told_its_commands_only(shell: Any) -> None:
    assert "Write `" not in shell("spool --weigh").err
