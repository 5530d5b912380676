import re

import pytest

from buildlog.screens.keys import KEYS, SCREENS, Scope, bindings, clashes, in_force, keys_of, markdown_table

DAILY = "start_print finish_print fail_print load_spool weigh_spool tick_step record_fit receive_order"


@pytest.mark.parametrize("scope", Scope)
def test_no_two_keys_in_force_together_claim_the_same_key(scope: Scope) -> None:
    assert clashes(in_force(scope) if scope in SCREENS else keys_of(scope)) == []


@pytest.mark.parametrize("scope", [Scope.CHOICE, Scope.YES_NO, Scope.FORM, Scope.HELP])
def test_the_keys_of_a_question_do_not_clash_with_those_of_all_questions(scope: Scope) -> None:
    assert clashes([*keys_of(scope), *keys_of(Scope.DIALOG)]) == []


def test_a_clash_is_found() -> None:
    up = next(key for key in KEYS if key.id == "cursor_up")
    assert clashes([up, up]) == ["up"]


def test_every_daily_action_has_one_key_on_some_screen() -> None:
    assert {key.id for key in KEYS if key.scopes[0] in SCREENS} >= set(DAILY.split())


def test_every_key_says_in_a_sentence_what_it_does() -> None:
    assert [key.id for key in KEYS if not re.fullmatch(r"[A-Z0-9].*\.", key.tooltip)] == []


def test_bindings_carry_label_tooltip_and_action_of_their_key() -> None:
    start = next(b for b in bindings(Scope.TODAY) if b.action == "start_print")
    assert (start.key, start.description, start.show) == ("s", "start", True)
    assert start.tooltip == "Start one of the three likeliest ready files."
    picks = [(b.key, b.action) for b in bindings(Scope.CHOICE)]
    assert picks[2] == ("3", "pick('3')")


def test_the_table_for_the_readme_names_every_key_of_every_scope() -> None:
    table = markdown_table()
    assert table.count("\n") == 2 + sum(len(keys_of(scope)) for scope in Scope)
    assert "| everywhere | `ctrl+r` | redo | Do again what was taken back. | redo |" in table
