"""Fields read from text and shown again, and where they are kept."""

import pytest

from buildlog.proposals.field import Field, Kind, fields_of
from buildlog.proposals.forms_shop import Material, Supplier
from buildlog.proposals.nouns import FORMS, noun_fields
from buildlog.proposals.orders import PlaceOrder
from buildlog.proposals.recorded import own_fields, table_of
from buildlog.record.tables import TABLES


@pytest.mark.parametrize(
    ("kind", "text", "value", "shown"),
    [
        (Kind.GRAMS, "84.5", 84_500, "84.5"),
        (Kind.GRAMS, "84,5", 84_500, "84.5"),
        (Kind.DENSITY, "1.05", 1050, "1.05"),
        (Kind.MM, "0.4", 400, "0.4"),
        (Kind.MONEY, "19.90", 1990, "19.9"),
        (Kind.DURATION, "2:30", 150, "2:30"),
        (Kind.DURATION, "2h30", 150, "2:30"),
        (Kind.DURATION, "2.5 h", 150, "2:30"),
        (Kind.DURATION, "1d 4h", 1680, "28:00"),
        (Kind.DURATION, "45", 45, "0:45"),
        (Kind.YES_NO, "Yes", True, "yes"),
        (Kind.CODE, "fl-07", "FL-07", "FL-07"),
        (Kind.TEXT, "a \x1b[31mred\u202e  word", "a [31mred word", "a [31mred word"),
    ],
)
def test_a_text_becomes_a_value_of_the_record_and_is_shown_again(kind, text, value, shown) -> None:
    field = Field("x", "x", kind)
    assert field.parse(text) == value
    assert field.show(value) == shown
    assert field.parse(shown) == value


@pytest.mark.parametrize(
    ("value", "offered"),
    [(2390, "23.90"), (2300, "23.00"), (5, "0.05"), (0, "0.00"), (None, ""), (123456, "1234.56")],
)
def test_money_is_offered_with_both_decimals_and_reads_as_before(value: int | None, offered: str) -> None:
    field = Field("x", "x", Kind.MONEY)
    assert field.offered(value) == offered
    assert field.parse(offered) == value


def test_what_is_no_money_is_offered_as_it_is_shown() -> None:
    assert Field("x", "x", Kind.GRAMS).offered(84_500) == "84.5"
    assert Field("x", "x", Kind.YES_NO).offered(False) == "no"


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        (Kind.GRAMS, "1,234"),
        (Kind.GRAMS, "heavy"),
        (Kind.WHOLE, "1.5"),
        (Kind.DURATION, "soon"),
        (Kind.CODE, "no code"),
        (Kind.CODE, "X" * 25),
        (Kind.YES_NO, "perhaps"),
        (Kind.TEXT, "x" * 201),
        (Kind.DECIMAL, "1e99"),
        (Kind.WHOLE, "9" * 5000),
        (Kind.GRAMS, "1" + "0" * 30),
        (Kind.DURATION, "9" * 5000),
        (Kind.DURATION, "9" * 5000 + ":00"),
        (Kind.DURATION, "9" * 40 + " h"),
        (Kind.DURATION, "8785 h"),
        (Kind.CHOICE, "x" * 10_000),
        (Kind.YES_NO, "x" * 10_000),
        (Kind.LINES, "x" * 30_000),
    ],
)
def test_a_text_that_means_nothing_or_two_things_is_refused(kind: Kind, text: str) -> None:
    with pytest.raises(ValueError, match=r"«|longer") as refused:
        Field("x", "x", kind).parse(text)
    assert len(str(refused.value)) < 500  # a message is read on one screen, whatever was typed


@pytest.mark.parametrize(("text", "side"), [("left", "L"), ("RIGHT", "R"), ("l", "L"), ("R", "R")])
def test_a_side_is_read_by_letter_or_word_in_any_case(text: str, side: str) -> None:
    assert Field("side", "side", Kind.CHOICE, choices=("L", "R")).parse(text) == side


@pytest.mark.parametrize("text", ["\u202e", "\x1b", "\udcff", " \0 "])
def test_a_text_of_nothing_that_shows_is_no_text(text: str) -> None:
    assert Field("x", "x", Kind.TEXT).parse(text) is None


def test_a_list_of_nothing_is_no_list() -> None:
    lines = next(field for field in fields_of(PlaceOrder) if field.name == "lines")
    assert lines.parse(" ,, ,") is None


@pytest.mark.parametrize("text", ["0", "-5", "10001"])
def test_a_scale_that_leaves_nothing_or_a_house_is_refused(text: str) -> None:
    scale = next(field for field in noun_fields("part") if field.name == "scale")
    with pytest.raises(ValueError, match="must be at"):
        scale.parse(text)


def test_bounds_are_said_in_the_unit_in_which_one_types() -> None:
    field = Field("x", "x", Kind.MM, least=100, most=3000)
    with pytest.raises(ValueError, match=r"at least 0\.1 mm$"):
        field.parse("0.05")
    with pytest.raises(ValueError, match=r"at most 3 mm$"):
        field.parse("3.5")


def test_a_weekday_is_kept_as_a_number_from_monday() -> None:
    field = next(field for field in fields_of(Supplier) if field.name == "cutoff_day")
    assert (field.parse("thursday"), field.parse("Sun"), field.show(3)) == (3, 6, "Thu")
    with pytest.raises(ValueError, match="none of: Mon"):
        field.parse("someday")


def test_the_column_of_a_field_ends_with_its_unit() -> None:
    columns = {field.name: field.stored_as for field in fields_of(Material)}
    assert columns["pack"] == "pack_mg"
    assert columns["dry_time"] == "dry_minutes"
    assert columns["density"] == "density_mg_cm3"
    assert columns["supplier"] == "supplier_id"
    assert columns["dry_celsius"] == "dry_celsius"


@pytest.mark.parametrize("noun", FORMS)
def test_every_field_of_a_noun_is_kept_in_a_column_that_exists(noun: str) -> None:
    columns = set(TABLES[table_of(noun)].model_fields)
    assert {field.stored_as for field in own_fields(noun)} <= columns


@pytest.mark.parametrize("noun", FORMS)
def test_the_key_of_a_noun_is_made_of_its_fields(noun: str) -> None:
    assert set(FORMS[noun].KEY) <= {field.name for field in noun_fields(noun)}
