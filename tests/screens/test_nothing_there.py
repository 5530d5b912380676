"""On a ledger with nothing in it, and on one with only a build, every key of every screen asks or says what to do."""

from collections.abc import Callable
from typing import Any

import pytest
from textual.widgets import Input

from buildlog.ledger import Ledger
from buildlog.screens.dialogs.choose import Choose
from buildlog.screens.dialogs.tick_off import TickOff
from buildlog.screens.keys import SCREENS, Scope, keys_of
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.said_line import SaidLine

FOLDS = {"unfold_alerts", "show_all", "show_rows", "show_text", "type_window"}
"""Keys that show or hide something, or go into a line to type: they ask nothing and refuse nothing."""


@pytest.fixture
def only_a_build(ledger: Ledger, add: Callable[..., Any]) -> Ledger:
    add("build", code="LB", name="Lantern Beetle")
    return ledger


async def go(on: Any, scope: Scope) -> None:
    """The screen, out of any question or line, with nothing said on it."""
    while on.app.screen.is_modal or isinstance(on.app.focused, Input):
        await on.press("escape")
    await on.app.action_go(scope.name.lower())
    await on.settle()
    on.app.shown.query_one(SaidLine)._forget()
    await on.settle()


@pytest.mark.parametrize("there", ["ledger", "only_a_build"])
@pytest.mark.parametrize("scope", SCREENS)
async def test_no_key_asks_to_choose_from_nothing(
    request: pytest.FixtureRequest, screens: Any, there: str, scope: Scope
) -> None:
    ledger = request.getfixturevalue(there)
    before = [group.id for group in ledger.journal(100)]
    async with screens(ledger) as on:
        for key in keys_of(scope):
            await go(on, scope)
            await on.press(key.keys[0])
            if isinstance(on.app.screen, Choose | TickOff):
                assert on.app.screen.query_one(Grid).shown_keys, f"{key.id}: {on.sentences}"
            elif not on.app.screen.is_modal and key.id not in FOLDS:
                said, _ = on.app.shown.query_one(SaidLine)._said or ("", None)
                assert ": " in said, f"{key.id} says nothing, or not what to do: «{said}»"
    assert [group.id for group in ledger.journal(100)] == before


async def test_what_a_thing_names_is_asked_for_first(ledger: Ledger, screens: Any, add: Callable[..., Any]) -> None:
    async with screens(ledger) as on:
        await on.go_to_noun("spool")
        await on.press("a")
        assert "A spool names a material, and there is no material yet: add that first" in on.sentences
        assert ledger.snapshot().spools == ()
        await on.go_to_noun("material")
        await on.press("a")
        await on.fill({"code": "PLA-RED", "name": "Red PLA", "polymer": "PLA"})
        await on.press("enter")
        await on.go_to_noun("spool")
        await on.press("a")
        await on.fill({"code": "R1"})
        await on.press("enter")
    assert [spool.code for spool in ledger.snapshot().spools] == ["R1"]
