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

    def offered(self, value: Any) -> str:
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
        assert "› SHELF-2" in "\n".join(app.lines)
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


NAMES = ["SHIN", "SHELF-1", "SHELF-2", "TOE", "VISOR", "CROWN", "BRIDGE", "BUSH"]


async def typed_into_box(app: Any, press: Callable[..., Any], pilot: Any, keys: str) -> str:
    app.ask(AskFields("Where?", FIELDS, values={"grams": 9}, completions={"box": NAMES}))
    await pilot.pause()
    await press(pilot, f"down down down {keys}")
    return "\n".join(app.lines)


async def test_names_that_fit_are_listed_below_the_field_those_that_begin_so_first(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        text = await typed_into_box(app, press, pilot, "s h")
        assert text.index("› SHIN  tab") < text.index("SHELF-1") < text.index("SHELF-2") < text.index("BUSH")
        assert "TOE" not in text.split("SHIN", 1)[1].split("known", 1)[0]


async def test_tab_takes_the_lit_name_and_without_one_goes_on(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        await typed_into_box(app, press, pilot, "s h pagedown tab")
        assert app.focused is not None
        assert (app.focused.name, app.focused.value) == ("box", "SHELF-1")
        await press(pilot, "tab")
        assert app.focused.name == "grams"
        await press(pilot, "enter")
        assert app.answers[0]["box"] == "SHELF-1"


async def test_names_are_shown_on_demand_and_the_list_follows_what_is_lit(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        text = await typed_into_box(app, press, pilot, "pagedown")
        assert "› SHIN" in text
        assert "… 8 in all" in text
        await press(pilot, "pagedown pagedown pagedown pagedown pagedown pageup pagedown")
        assert "› CROWN" in "\n".join(app.lines)
        await press(pilot, "right enter")
        assert app.answers[0]["box"] == "CROWN"


async def test_what_is_wrong_stands_below_each_field_that_was_touched(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(AskFields("Where?", FIELDS, alone={"box": lambda box: "" if box in NAMES else f"no box «{box}»"}))
        await pilot.pause()
        await press(pilot, "q down down down x")
        lines = app.lines
        line = next(i for i, text in enumerate(lines) if "on the scale*" in text)
        assert "✗ «q» is no number" in lines[line + 1]
        line = next(i for i, text in enumerate(lines) if " box  x" in text)
        assert "✗ no box «x»" in lines[line + 1]
        await press(pilot, "backspace")
        assert "no box" not in "\n".join(app.lines)


async def test_a_name_that_is_being_typed_is_not_called_wrong_before_enter(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        form = AskFields(
            "Where?",
            FIELDS,
            values={"grams": 9},
            completions={"box": NAMES},
            alone={"box": lambda box: "" if box in NAMES else f"no box «{box}»"},
        )
        app.ask(form)
        await pilot.pause()
        await press(pilot, "down down down s h")
        assert "no box" not in "\n".join(app.lines)
        await press(pilot, "enter")
        assert "✗ no box «sh»" in "\n".join(app.lines)
        assert app.answers == []
        await press(pilot, "backspace backspace z z")
        assert "✗ no box «zz»" in "\n".join(app.lines)


CHOSEN = (
    Asked("joined", "joined", "choice", choices=("comes apart", "bonded")),
    Asked("side", "side", "choice", choices=("left", "right")),
    Asked("rule", "rule", "choice", choices=("as the position", "L only", "R only"), default="as the position"),
    Asked("took", "took", "duration"),
    Asked("note", "note"),
)


async def test_a_choice_goes_on_by_arrow_and_letter_and_a_dash_leaves_it_open(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(AskFields("Pick", CHOSEN))
        await pilot.pause()
        await press(pilot, "b down r down p r enter")
        app.ask(AskFields("Pick", CHOSEN, values={"side": "left"}))
        await pilot.pause()
        await press(pilot, "left down - down right right enter")
        app.ask(AskFields("Pick", CHOSEN, values={"joined": "bonded", "side": "left"}))
        await pilot.pause()
        await press(pilot, "delete down l down l enter")
    answers = [(answer["joined"], answer["side"], answer["rule"]) for answer in app.answers]
    assert answers == [("bonded", "right", "R only"), ("bonded", None, "R only"), (None, "left", "L only")]


async def test_how_to_pick_is_told_at_choices_only_and_how_to_write_at_durations(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    app, told = bench(), {}
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(AskFields("Pick", CHOSEN))
        await pilot.pause()
        for field in CHOSEN:
            text = "\n".join(app.lines)
            told[field.name] = ("← → or its first letters" in text, "h:mm or minutes" in text)
            await press(pilot, "down")
    picked, written, plain = (True, False), (False, True), (False, False)
    assert told == {"joined": picked, "side": picked, "rule": picked, "took": written, "note": plain}


def kinds(choices: tuple[str, ...]) -> AskFields:
    def parse(text: str) -> str:
        if text not in choices:
            raise ValueError(f"«{text}» is none of: {', '.join(choices)}")
        return text

    field = Asked("kind", "kind", "choice", choices=choices, required=True)
    object.__setattr__(field, "parse", parse)
    return AskFields("A step", (field,))


SHORT = ("design", "clean", "sand", "bond", "solvent bond", "other")


@pytest.mark.parametrize(
    ("keys", "kind"),
    [
        ("s o l v", "solvent bond"),
        ("s o l v e n t space b", "solvent bond"),
        ("s s", "solvent bond"),
        ("s s s", "sand"),
        ("s o backspace", "sand"),
        ("b", "bond"),
        ("o t", "other"),
        ("s o l v left", "bond"),
    ],
)
async def test_letters_of_a_choice_narrow_by_what_was_typed_so_far(
    bench: Callable[..., Any], press: Callable[..., Any], keys: str, kind: str
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(kinds(SHORT))
        await pilot.pause()
        await press(pilot, keys)
        assert f"[{kind}]" in "\n".join(app.lines)
        await press(pilot, "enter")
    assert app.answers == [{"kind": kind}]


async def test_letters_that_begin_no_choice_are_not_recorded_as_another(
    bench: Callable[..., Any], press: Callable[..., Any]
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(kinds(SHORT))
        await pilot.pause()
        await press(pilot, "s o v l enter")
        assert app.answers == []
        assert "✗ «sovl» is none of: design, clean, sand, bond, solvent bond, other" in "\n".join(app.lines)
        await press(pilot, "backspace backspace l enter")
    assert app.answers == [{"kind": "solvent bond"}]


async def test_choices_that_have_no_room_in_their_line_are_listed_below(bench: Callable[..., Any]) -> None:
    app, choices = bench(), tuple(f"{word} of the work" for word in ("start", "middle", "ending", "rest", "surplus"))
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(kinds(choices))
        await pilot.pause()
        text = " ".join("\n".join(app.lines).replace("▌", "").split())
    assert "[start of the work] 1 of 5" in text
    assert "its first letters: start of the work, middle of the work, ending of the work, rest" in text


async def test_the_field_in_hand_bears_a_sign_and_no_other(
    bench: Callable[..., Any], press: Callable[..., Any], form: AskFields
) -> None:
    app = bench()
    async with app.run_test(size=(80, 24)) as pilot:
        app.ask(form)
        await pilot.pause()
        await press(pilot, "down")
        signed = [line.split("┃")[1].split()[0] for line in app.lines if "┃" in line]
    assert signed == ["looks"]
