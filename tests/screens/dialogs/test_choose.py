from collections.abc import Callable
from typing import Any

import pytest

from buildlog.screens.dialogs.choose import Choice, Choose
from buildlog.screens.widgets.tones import Tone


@pytest.fixture
def which() -> Choose[str]:
    choices = [Choice(f"value {i}", f"file [{i}]", f"{i} h") for i in range(1, 12)]
    return Choose("Which ready file?", [*choices, Choice("tight", "last", "tight", Tone.CAUTION)])


async def ask(app: Any, pilot: Any, question: Any) -> None:
    app.ask(question)
    await pilot.pause()


async def test_it_numbers_the_first_nine_and_says_its_keys(bench: Callable[..., Any], which: Choose[str]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        await ask(app, pilot, which)
        text = "\n".join(app.lines)
        assert "Which ready file?" in text
        assert "9  file [9]" in text
        assert "10  file" not in text
        assert "! tight" in text
        assert "1–9 pick   esc leave" in text


@pytest.mark.parametrize(
    ("keys", "answer"),
    [
        ("3", "value 3"),
        ("enter", "value 1"),
        ("down down enter", "value 3"),
        ("escape", None),
        ("slash l a s t enter enter", "tight"),
        ("slash 4 enter enter", "value 4"),
    ],
)
async def test_it_answers_the_value_chosen(
    bench: Callable[..., Any], press: Callable[..., Any], which: Choose[str], keys: str, answer: str | None
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        await ask(app, pilot, which)
        await press(pilot, keys)
        assert app.answers == [answer]


async def test_a_key_pressed_twice_at_once_answers_once_and_closes_nothing_else(
    bench: Callable[..., Any], which: Choose[str]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        await ask(app, pilot, Choose("Beneath", [Choice("beneath", "beneath")]))
        await ask(app, pilot, which)
        app.simulate_key("enter")
        app.simulate_key("enter")
        await pilot.pause()
        assert app.answers == ["value 1"]
        assert "Beneath" in "\n".join(app.lines)


async def test_a_key_pressed_before_it_stands_answers_nothing(bench: Callable[..., Any], which: Choose[str]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(which)
        assert not await which.run_action("pick('3')")
        await pilot.pause()
        assert app.answers == []


async def test_a_number_that_the_filter_hides_picks_nothing(
    bench: Callable[..., Any], press: Callable[..., Any], which: Choose[str]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        await ask(app, pilot, which)
        await press(pilot, "slash l a s t enter 2")
        assert app.answers == []


async def test_escape_shows_all_again_before_it_leaves(
    bench: Callable[..., Any], press: Callable[..., Any], which: Choose[str]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        await ask(app, pilot, which)
        await press(pilot, "slash l escape")
        assert app.answers == []
        await press(pilot, "escape")
        assert app.answers == [None]


async def test_nothing_to_choose_from_is_said(bench: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        await ask(app, pilot, Choose("Which spool?", [], empty="No spool is open: open one with b."))
        await pilot.press("enter", "1")
        assert "No spool is open" in "\n".join(app.lines)
        assert app.answers == []


LONG = "PACK, stale: a new piece stands there now, since the strap was lengthened and its buckle moved"


async def test_what_a_choice_says_is_told_whole_below_the_list_where_its_line_is_cut(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(Choose("Which fit?", [Choice(1, "sits on the wearer", LONG), Choice(2, "is round", "due")]))
        await pilot.pause(0.1)
        assert LONG in " ".join(" ".join(app.lines).replace("▌", " ").split())
        await press(pilot, "down")
        assert LONG not in " ".join(" ".join(app.lines).replace("▌", " ").split())


async def test_a_choice_follows_the_window_and_keeps_its_keys_in_sight(bench: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(120, 40)) as pilot:
        caution = "There is a caution that takes more than one line, so that less room is left for the list below it."
        app.ask(Choose("Which?", [Choice(i, f"thing {i}", LONG) for i in range(60)], caution=caution))
        for size, least in (((120, 40), 25), ((60, 17), 3), ((80, 24), 9)):
            await pilot.resize_terminal(*size)
            await pilot.pause(0.2)
            assert sum("thing" in line for line in app.lines) >= least
            assert any("esc leave" in line for line in app.lines)


async def test_what_comes_after_a_refresh_finds_a_question_that_is_answered_already(
    bench: Callable[..., Any], which: Choose[str]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        await ask(app, pilot, which)
        await pilot.press("1")
        await pilot.pause()
        which._fit()  # as a window that changed at the same moment asks for it
        which.on_grid_highlighted()
    assert app.answers == ["value 1"]
