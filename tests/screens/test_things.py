"""Things: the form of every noun is filled in by keys, and the record looked at."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.notes import AddNote
from buildlog.proposals.nouns import FORMS, Add, Retire, form_from_texts, key_of, noun_fields
from buildlog.screens.acts.thing_defaults import CARRIED, OWN, next_code
from buildlog.screens.things_rows import MEANS, NOUNS, noun_rows, thing_rows
from buildlog.status.forms import form_of, forms_of, keys_of, retired_of
from buildlog.status.notes import notes_of

ZONE = "Europe/Berlin"
Texts = dict[str, str]

TYPED: dict[str, dict[str, Texts]] = tomllib.loads((Path(__file__).parent / "things.toml").read_text("utf-8"))
"""By noun what is typed: to add one, what is changed in it then, what in a copy of it."""


def texts_as_values(ledger: Ledger, noun: str, texts: Texts) -> dict[str, Any]:
    """What the record's form says when these texts were typed."""
    fields = {field.name: field for field in noun_fields(noun)}
    values = {name: fields[name].parse(text) for name, text in texts.items()}
    read = moment_reader(ledger.now(), ZONE)
    moments = {name for name in values if str(fields[name].kind) == "moment"}
    return {name: read(value, True) if name in moments else value for name, value in values.items()}


def said(form: Any, texts: Texts) -> dict[str, Any]:
    return {name: getattr(form, name) or None for name in texts}


def in_form_order(noun: str, texts: Texts) -> Texts:
    return {field.name: texts[field.name] for field in noun_fields(noun) if field.name in texts}


@pytest.fixture
def peopled(workshop: Ledger) -> Ledger:
    """With an episode, so that it can have goals."""
    read = moment_reader(workshop.now(), ZONE)
    episode = form_from_texts("episode", {"build": "LB", "number": "1", "films_at": "2026-11-21 14:00"}, read)
    workshop.record(Add(episode))
    return workshop


def test_every_noun_has_a_line_a_meaning_and_a_test_of_its_form() -> None:
    assert set(NOUNS) == set(FORMS) == set(MEANS)
    assert set(TYPED) == set(FORMS) - {"settings"}


def test_fields_that_are_carried_or_left_out_are_fields_of_their_noun() -> None:
    for table in (CARRIED, OWN):
        for noun, names in table.items():
            assert set(names) <= {field.name for field in noun_fields(noun)}, noun


@pytest.mark.parametrize("noun", list(TYPED))
async def test_a_thing_is_added_changed_copied_retired_and_brought_back_by_keys(
    peopled: Ledger, screens: Any, noun: str
) -> None:
    added, changed, of_copy = (in_form_order(noun, texts) for texts in TYPED[noun].values())
    async with screens(peopled) as on:
        await on.go_to_noun(noun)
        before = forms_of(peopled.snapshot(), noun)
        await on.press("a")
        await on.fill(added)
        await on.press("enter")
        new = [form for key, form in forms_of(peopled.snapshot(), noun).items() if key not in before]
        assert len(new) == 1, on.text
        assert said(new[0], added) == texts_as_values(peopled, noun, added)
        assert on.app.screen.key_here == key_of(new[0])

        await on.press("e")
        await on.fill(changed)
        await on.press("enter")
        now = form_of(peopled.snapshot(), noun, on.app.screen.key_here)
        kept = {name: text for name, text in added.items() if name not in changed}
        assert said(now, kept | changed) == {
            **texts_as_values(peopled, noun, kept),
            **{name: value or None for name, value in texts_as_values(peopled, noun, changed).items()},
        }, on.text

        known = forms_of(peopled.snapshot(), noun)
        await on.press("c")
        await on.fill(of_copy)
        await on.press("enter")
        twins = [form for key, form in forms_of(peopled.snapshot(), noun).items() if key not in known]
        assert len(twins) == 1, on.text
        alike = [name for name in added if name not in (*FORMS[noun].KEY, *of_copy, *OWN.get(noun, ()))]
        assert [getattr(twins[0], name) for name in alike] == [getattr(now, name) for name in alike]
        assert on.app.screen.key_here == key_of(twins[0])

        await on.press("x y")
        assert key_of(twins[0]) in retired_of(peopled.snapshot(), noun), on.text
        await on.press("b 1")
        assert key_of(twins[0]) in forms_of(peopled.snapshot(), noun), on.text
    assert peopled.check() == []


async def test_settings_are_changed_and_nothing_else(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("settings")
        for key in "acxb":
            await on.press(key)
            assert "one row of settings" in on.text
        await on.press("e")
        await on.fill({"kwh_price": "0.31", "day_starts": "7:30"})
        await on.press("enter")
    settings = workshop.snapshot().settings
    assert (settings.kwh_price_minor, settings.day_starts_minutes) == (31, 450)


async def test_only_what_was_changed_is_written(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("milestone")
        await on.press("enter e enter")
        assert "Nothing was changed." in on.text
    assert workshop.journal(1)[0].action != "change"


async def test_the_form_starts_from_the_last_thing_of_its_noun(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("question")
        await on.press("a")
        await on.fill({"text": "how long?"})
        await on.press("enter")
    form = list(forms_of(workshop.snapshot(), "question").values())[-1]
    assert (form.code, form.build, form.text) == ("Q2", "LB", "how long?")


async def test_what_is_wrong_is_said_while_typing_and_at_its_field(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("spool")
        await on.press("a")
        await on.fill({"code": "A1"})
        assert "✗ spool «A1» is there already" in on.text
        await on.fill({"code": "A7", "material": "PLA-NONE"})
        assert "✗ There is no material «PLA-NONE»" in on.text
        await on.fill({"tare": "many"})
        assert "✗ «many» is no number" in on.text
        await on.press("escape")
    assert len(forms_of(workshop.snapshot(), "spool")) == 3


async def test_fields_that_contradict_each_other_are_told(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("supplier")
        await on.press("enter e")
        await on.fill({"cutoff_day": "Fri"})
        await on.press("enter")
        assert "cut-off day and cut-off time go together" in on.text
        assert on.app.focused.name == "cutoff_time"
        await on.fill({"cutoff_time": "12:00"})
        await on.press("enter")
    assert form_of(workshop.snapshot(), "supplier", "FIL").cutoff_day == 4


async def test_what_was_refused_is_asked_again_as_it_was_typed(workshop: Ledger, screens: Any) -> None:
    workshop.record(Add(form_from_texts("box", {"code": "VAN", "name": "van"})))
    workshop.record(Retire("box", "VAN"))
    async with screens(workshop) as on:
        await on.go_to_noun("box")
        await on.press("a")
        await on.fill({"code": "VAN", "name": "second van"})
        await on.press("enter")
        assert "Nothing was recorded" in on.text
        await on.press("enter")
        assert "second van" in on.text
        await on.fill({"code": "VAN2"})
        await on.press("enter")
    assert form_of(workshop.snapshot(), "box", "VAN2").name == "second van"


async def test_names_are_completed_in_a_list_too(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("fit test")
        await on.press("a")
        await on.fill({"code": "TWO", "name": "two parts", "assembly": "LEG", "parts": "SHIN, t"})
        assert "› TOE" in on.text
        await on.press("right")
        assert on.app.focused.value == "SHIN, TOE"
        await on.press("enter")
    assert form_of(workshop.snapshot(), "fit test", "TWO").parts == ("SHIN", "TOE")


@pytest.mark.parametrize(
    ("noun", "texts", "word"),
    [
        ("step", {"kind": "solvent bond"}, "vapour"),
        ("fit test", {"kind": "on-person"}, "person"),
        ("printer", {"runs_unattended": "yes"}, "fire"),
        ("material", {"polymer": "ABS"}, "styrene"),
    ],
)
async def test_a_caution_stands_in_the_form_where_one_belongs(
    workshop: Ledger, screens: Any, noun: str, texts: Texts, word: str
) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun(noun)
        await on.press("a")
        await on.fill(texts)
        assert word in on.text
        assert "enter record" in on.text, "the last line of the form is pushed out"


async def test_a_new_printer_takes_no_class_over_and_one_of_a_class_with_another_bed_is_said(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("printer")
        await on.press("a")
        await on.fill({"code": "SMALL", "name": "Small bed", "bed_x": "200", "bed_y": "200", "bed_z": "200"})
        assert "of class" not in on.text
        await on.fill({"printer_class": "BIG"})
        await on.press("down")
        assert "BIG is of class «BIG» too, and its bed is 350 × 350 × 400 mm" in on.sentences
        await on.fill({"printer_class": ""})
        await on.press("enter")
    assert form_of(workshop.snapshot(), "printer", "SMALL").printer_class == ""


async def test_what_stands_on_a_thing_is_named_when_it_cannot_be_retired(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("supplier")
        await on.press("enter x y")
        assert "still needed by" in " ".join(on.text.split())
        assert "PLA-AMBER" in on.text
        await on.press("enter")
    assert "FIL" in forms_of(workshop.snapshot(), "supplier")


async def test_the_list_of_a_noun_is_found_by_its_name(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("ctrl+p w a i t space l i s t enter")
        assert on.app.current_mode == "things"
        assert on.app.shown.noun_here == "wait"


async def test_enter_on_a_noun_with_nothing_adds_the_first(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("9 enter")
        await on.fill({"code": "LB", "name": "Lantern Beetle"})
        await on.press("enter")
    assert [build.code for build in ledger.snapshot().builds] == ["LB"]


def test_codes_count_on_to_the_next_that_is_free() -> None:
    assert next_code("FL07", {"FL07", "FL08"}) == "FL09"
    assert next_code("Q9", {"Q9"}) == "Q10"
    assert next_code("SHIN", {"SHIN", "SHIN-2"}) == "SHIN-3"


async def test_a_strange_name_is_told_before_the_rest_is_filled_in(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("print file")
        await on.press("a")
        await on.fill({"lines": "SHIN L, SHINN R"})
        lines = on.lines
        at = next(i for i, line in enumerate(lines) if "lays down" in line)
        assert "✗ There is no part «SHINN»" in lines[at + 1]


@pytest.mark.parametrize("noun", NOUNS)
async def test_a_note_with_a_picture_is_written_on_a_thing_of_every_noun(
    peopled: Ledger, screens: Any, noun: str
) -> None:
    if noun not in ("settings", *(n for n in NOUNS if keys_of(peopled.snapshot(), n))):
        read = moment_reader(peopled.now(), ZONE)
        peopled.record(Add(form_from_texts(noun, TYPED[noun]["added"], read)))
    async with screens(peopled) as on:
        await on.go_to_noun(noun)
        key = on.app.screen.key_here
        await on.press("n")
        await on.fill({"text": "creaks", "photo": "p/creak.jpg"})
        await on.press("enter")
        assert "Noted" in on.text
    (note,) = peopled.snapshot().notes
    assert (note.noun, note.text, note.photo) == (noun, "creaks", "p/creak.jpg")
    assert [*notes_of(peopled.snapshot(), noun)] == [key]


async def test_the_newest_note_stands_with_its_thing(workshop: Ledger, screens: Any) -> None:
    for text in ("smells", "creaks"):
        workshop.record(AddNote(text=text, about="part BRIDGE", photo="creak.jpg"))
    async with screens(workshop, size=(120, 40)) as on:
        await on.go_to_noun("part")
        assert "Nose bridge · 2 notes, Wed 25 Nov: creaks (creak.jpg) · LB" in on.text


async def test_what_a_note_is_about_is_found_by_a_piece_of_its_name(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("milestone")
        on.app.screen.things.focus()
        await on.press("n")
        await on.fill({"text": "windy", "about": "crow"})
        assert "› part CROWN" in on.text
        await on.press("tab enter")
    snapshot = workshop.snapshot()
    assert [*notes_of(snapshot, "part")] == ["CROWN"]


async def test_the_first_question_has_a_code_already(ledger: Ledger, screens: Any, add: Any) -> None:
    add("build", code="CART", name="Drum Cart")
    async with screens(ledger) as on:
        await on.press("9")
        on.app.screen.nouns.move_to("noun:question")
        await on.settle()
        await on.press("a down down")
        await on.type("which skin")
        await on.press("enter")
    assert [(q.code, q.text) for q in ledger.snapshot().questions] == [("Q1", "which skin")]


def test_the_count_of_a_noun_is_how_many_are_listed_those_out_of_use_left_out(peopled: Ledger) -> None:
    peopled.record(Retire("spool", "A2"))
    snapshot = peopled.snapshot()
    counts = {row.key.removeprefix("noun:"): row.cells[1].words() for row in noun_rows(snapshot)}
    listed = {noun: str(len(thing_rows(snapshot, noun))) for noun in NOUNS}
    assert counts == listed | {"settings": ""}
    assert counts["spool"] == "2"


async def test_a_filter_finds_things_by_what_no_line_has_shown_yet(workshop: Ledger, screens: Any) -> None:
    for number in range(60):
        named = {"code": f"P-{number:02}", "build": "LB", "name": f"spacer no {number}", "origin": "made by hand"}
        workshop.record(Add(form_from_texts("part", named)))
    async with screens(workshop) as on:
        await on.go_to_noun("part")
        assert "spacer no 58" not in on.text
        await on.press("right slash")
        await on.type("spacer no 58")
        assert on.app.screen.key_here == "P-58"
