from collections.abc import Callable
from typing import Any

import pytest

from buildlog.screens.dialogs.confirm import Confirm
from buildlog.screens.dialogs.help import HelpScreen
from buildlog.screens.dialogs.say import Say
from buildlog.screens.keys import Scope, keys_of


@pytest.mark.parametrize(
    ("careful", "keys", "answer"),
    [
        (False, "y", True),
        (False, "n", False),
        (False, "enter", True),
        (False, "tab enter", False),
        (True, "enter", False),
        (True, "y", True),
        (False, "escape", None),
    ],
)
async def test_a_question_of_yes_or_no_answers_by_key(
    bench: Callable[..., Any], press: Callable[..., Any], careful: bool, keys: str, answer: bool | None
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(Confirm("Take back?", ["«Finish print [J-2]» of 14:03"], yes="take it back", careful=careful))
        await pilot.pause()
        assert "«Finish print [J-2]» of 14:03" in "\n".join(app.lines)
        await press(pilot, keys)
        assert app.answers == [answer]


async def test_a_click_on_an_answer_gives_it(bench: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(Confirm("Take back?", ["the newest change"]))
        await pilot.pause()
        await pilot.click("#no")
        assert app.answers == [False]


@pytest.mark.parametrize("key", ["enter", "escape"])
async def test_a_refusal_says_what_to_do_instead_and_closes(
    bench: Callable[..., Any], press: Callable[..., Any], key: str
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(Say("Not started", ["SP-04 is short by 88 g."], instead="Load another spool.", source="scale"))
        await pilot.pause()
        text = "\n".join(app.lines)
        assert "SP-04 is short by 88 g." in text
        assert "→ Load another spool." in text
        await press(pilot, key)
        assert app.answers == [None]


async def test_help_shows_the_question_every_key_of_the_screen_and_its_words(bench: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(100, 60)) as pilot:
        app.ask(HelpScreen(Scope.MIRROR, "How far is each subassembly?", [("slot", "one unit of one usage")]))
        await pilot.pause()
        text = "\n".join(app.lines)
        assert "How far is each subassembly?" in text
        for key in (*keys_of(Scope.MIRROR), *keys_of(Scope.LIST)):
            assert f"{key.face}  {key.tooltip}" in text
        assert "slot  one unit of one usage" in text


@pytest.mark.parametrize("key", ["question_mark", "escape", "enter"])
async def test_help_closes(bench: Callable[..., Any], press: Callable[..., Any], key: str) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(HelpScreen(Scope.TODAY, "What now?"))
        await pilot.pause()
        assert app.lines[0].strip() == ""  # it leaves the screen's edge in sight
        await press(pilot, key)
        assert app.answers == [None]


async def test_help_tells_every_text_whole_and_finds_it_by_any_of_its_words(bench: Any, press: Any) -> None:
    meaning = "Reckoned: a quarter of an hour after the print before it, by day, with the hours learned from prints."
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(HelpScreen(Scope.TODAY, "What now?", [("began", meaning)]))
        await pilot.pause()
        await press(pilot, "slash l e a r n e d enter")
        told = " ".join(" ".join(app.lines).replace("▌", " ").split())
        assert f"began {meaning}" in told
        assert "…" not in "".join(app.lines)
