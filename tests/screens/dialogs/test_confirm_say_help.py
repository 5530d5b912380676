from collections.abc import Callable
from typing import Any

import pytest

from buildlog.screens.dialogs.confirm import Confirm
from buildlog.screens.dialogs.help import HelpScreen
from buildlog.screens.dialogs.say import Say
from buildlog.screens.keys import KEYS, SCREENS, Scope, keys_of
from buildlog.screens.registry import MODES
from buildlog.wording import count


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
        told = " ".join(text.split())
        for key in (*keys_of(Scope.MIRROR), *keys_of(Scope.LIST)):
            assert f"{key.face} {key.tooltip}" in told
        assert "slot one unit of one usage" in told


async def at_rest(pilot: Any) -> None:
    """Wait until nothing more is laid out anew: a list gets its height after the texts beside it."""
    looks: list[list[str]] = []
    while len(looks) < 3 or not looks[-1] == looks[-2] == looks[-3]:
        await pilot.pause(0.02)
        looks.append(pilot.app.lines)


def words_in_view(app: Any) -> str:
    """The text of the panel without edges and line breaks."""
    return " ".join(" ".join(app.lines).replace("▌", " ").split())


@pytest.mark.parametrize("name", sorted(MODES))
async def test_the_help_of_a_screen_shows_all_of_its_text_by_scrolling_and_says_that_there_is_more(
    bench: Any, name: str
) -> None:
    app = bench()
    async with app.run_test(size=(60, 16)) as pilot:
        screen = MODES[name]()
        app.ask(HelpScreen(screen.SCOPE, screen.QUESTION, screen.WORDS))
        await at_rest(pilot)
        assert screen.QUESTION in words_in_view(app)
        grid = app.screen.query_one("#help")
        seen: dict[int, str] = {}
        while True:
            top, height = grid.region.y, grid.region.height
            seen |= {y + grid.scroll_offset.y: line for y, line in enumerate(app.lines[top : top + height])}
            more = len(grid.view.shown) - height - grid.scroll_offset.y
            said = words_in_view(app).rsplit("esc leave", 1)[1].strip()
            assert said == (f"↓ {count(more, 'line')} more" if more > 0 else "")
            if more <= 0:
                break
            await pilot.press("pagedown")
            await at_rest(pilot)
        told = " ".join(" ".join(seen[number].strip("▌ ▏█▁▂▃▄▅▆▇") for number in sorted(seen)).split())
        assert sorted(seen) == list(range(len(seen)))
        assert "…" not in told
        for key in KEYS:
            if key.scopes[0] not in SCREENS or screen.SCOPE in key.scopes:
                assert key.tooltip in told
        for word, meaning in screen.WORDS:
            assert f"{word} {meaning}" in told


async def test_help_is_wrapped_anew_when_the_window_changes(bench: Any) -> None:
    app = bench()
    async with app.run_test(size=(120, 40)) as pilot:
        app.ask(HelpScreen(Scope.MIRROR, "How far is each subassembly?"))
        await pilot.pause()
        await pilot.resize_terminal(62, 24)
        await at_rest(pilot)
        assert "All that can be edited here: usages, steps, waits, sides, parts." in words_in_view(app)
        assert "? close   esc leave" in "\n".join(app.lines)


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
