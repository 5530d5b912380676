import re
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.screens.dialogs.ask_fields import AskFields
from buildlog.screens.dialogs.choose import Choose
from buildlog.screens.dialogs.confirm import Confirm
from buildlog.screens.dialogs.help import HelpScreen, help_rows
from buildlog.screens.dialogs.question import Question
from buildlog.screens.dialogs.quick_line import QuickLine
from buildlog.screens.keys import KEYS, SCREENS, Scope, bindings, clashes, in_force, keys_of, markdown_table
from buildlog.screens.widgets.window_line import WindowLine

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


ASKED_IN = {
    Scope.DIALOG: Question,
    Scope.CHOICE: Choose,
    Scope.YES_NO: Confirm,
    Scope.FORM: AskFields,
    Scope.QUICK: QuickLine,
    Scope.WINDOW: WindowLine,
    Scope.HELP: HelpScreen,
}


@pytest.mark.parametrize("scope", [scope for scope in Scope if scope not in (*SCREENS, Scope.LIST, Scope.EVERYWHERE)])
def test_no_key_of_a_question_is_dead_or_clashes(scope: Scope) -> None:
    where = ASKED_IN[scope]
    for key in keys_of(scope):
        assert callable(getattr(where, f"action_{key.action.partition('(')[0]}", None)), key.id
    assert clashes(keys_of(scope)) == []
    if issubclass(where, Question) and scope is not Scope.DIALOG:
        assert clashes([*keys_of(scope), *keys_of(Scope.DIALOG)]) == []


@pytest.mark.parametrize("scope", SCREENS)
def test_the_help_of_a_screen_tells_all_its_keys_and_those_of_questions(scope: Scope) -> None:
    told = {row.key: row.words() for row in help_rows(scope, (), {})}
    for part in {scope, *Scope} - (set(SCREENS) - {scope}):
        for key in keys_of(part):
            words = told[f"key:{part.name}:{key.id}"]
            assert key.tooltip.casefold() in words
            assert key.face.casefold() in words


def test_every_key_is_in_the_help_of_some_screen() -> None:
    told = {row.key for scope in SCREENS for row in help_rows(scope, (), {})}
    assert {f"key:{scope.name}:{key.id}" for key in KEYS for scope in key.scopes} <= told


@pytest.mark.parametrize("scope", [Scope.MIRROR, Scope.THINGS])
async def test_every_key_that_edits_shows_or_asks_something(workshop: Ledger, screens: Any, scope: Scope) -> None:
    async with screens(workshop) as on:
        await on.app.switch_mode(scope.name.lower())
        await on.settle()
        for key in keys_of(scope):
            before = on.text
            await on.press(key.keys[0])
            assert on.text != before, key.id
            await on.press("escape")
            await on.app.switch_mode(scope.name.lower())
            await on.settle()
