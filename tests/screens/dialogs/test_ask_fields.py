from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import pytest

from buildlog.screens.dialogs.ask_fields import AskFields


@dataclass(frozen=True)
class Asked:
    """A field of a question as a form needs it; grams and words are all it reads."""

    name: str
    label: str
    kind: str = "text"
    unit: str = ""
    required: bool = False
    default: Any = None
    choices: tuple[str, ...] = ()
    help: str = ""
    caution: str = ""

    def parse(self, text: str) -> Any:
        if not text:
            return None
        if self.kind == "yes or no":
            return text == "yes"
        if self.kind == "grams" and not text.isdigit():
            raise ValueError(f"«{text}» is no number")
        return int(text) if self.kind == "grams" else text

    def show(self, value: Any) -> str:
        return "" if value is None else {True: "yes", False: "no"}.get(value, str(value))


FIELDS = (
    Asked("grams", "on the scale", "grams", "g", required=True, help="Spool and filament together."),
    Asked("looks", "looks", "choice", choices=("good", "second", "scrap"), default="good"),
    Asked("wet", "wet", "yes or no", default=False),
    Asked("box", "box", caution="Lift with both hands."),
)


def too_heavy(values: Mapping[str, Any]) -> dict[str, str]:
    return {"grams": "more than a full spool"} if values["grams"] > 1300 else {}


@pytest.fixture
def form() -> AskFields:
    return AskFields("Weigh SP-04", FIELDS, check=too_heavy, completions={"box": ["BOX-1", "SHELF-2"]})


async def test_the_form_shows_labels_units_caution_and_the_help_of_the_field_in_hand(
    bench: Callable[..., Any], form: AskFields
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(form)
        await pilot.pause()
        text = "\n".join(app.lines)
        assert "! Lift with both hands." in text
        assert "on the scale*" in text
        assert "[good] second  scrap" in text
        assert " yes [no]" in text
        assert "Spool and filament together." in text


async def test_figures_and_enter_are_enough(
    bench: Callable[..., Any], press: Callable[..., Any], form: AskFields
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(form)
        await pilot.pause()
        await press(pilot, "6 1 2 enter")
        assert app.answers == [{"grams": 612, "looks": "good", "wet": False, "box": None}]


async def test_keys_move_among_fields_pick_words_and_take_completions(
    bench: Callable[..., Any], press: Callable[..., Any], form: AskFields
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(form)
        await pilot.pause()
        await press(pilot, "9 down right down y down s h")
        assert "known: SHELF-2" in "\n".join(app.lines)
        await press(pilot, "right up down enter")
        assert app.answers == [{"grams": 9, "looks": "second", "wet": True, "box": "SHELF-2"}]


async def test_a_problem_is_said_while_typing_and_keeps_the_form_open(
    bench: Callable[..., Any], press: Callable[..., Any], form: AskFields
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(form)
        await pilot.pause()
        await press(pilot, "9 q")
        assert "✗ «9q» is no number" in "\n".join(app.lines)
        await press(pilot, "enter backspace 9 9 9")
        assert "✗ more than a full spool" in "\n".join(app.lines)
        assert app.answers == []
        await press(pilot, "backspace enter")
        assert app.answers[0]["grams"] == 999


async def test_enter_goes_to_the_first_field_that_is_still_missing(
    bench: Callable[..., Any], press: Callable[..., Any], form: AskFields
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(form)
        await pilot.pause()
        assert "missing" not in "\n".join(app.lines)
        await press(pilot, "down enter")
        assert "✗ on the scale is still missing" in "\n".join(app.lines)
        assert app.focused is not None
        assert app.focused.name == "grams"


async def test_values_given_stand_in_the_form(bench: Callable[..., Any], press: Callable[..., Any]) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(AskFields("Correct", FIELDS, values={"grams": 412, "looks": "scrap", "box": "[/] x"}))
        await pilot.pause()
        await press(pilot, "enter")
        assert app.answers == [{"grams": 412, "looks": "scrap", "wet": False, "box": "[/] x"}]


async def test_escape_leaves_without_an_answer(
    bench: Callable[..., Any], press: Callable[..., Any], form: AskFields
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(form)
        await pilot.pause()
        await press(pilot, "5 escape")
        assert app.answers == [None]
