"""No figure is taken that a finger slipped on."""

from typing import Any

import pytest

from buildlog.proposals.field import Field, Kind, asks, fields_of
from buildlog.proposals.nouns import FORMS, noun_fields
from buildlog.proposals.wishes import wishes

FIGURES = {Kind.GRAMS, Kind.DENSITY, Kind.DURATION, Kind.MM, Kind.MONEY, Kind.WHOLE, Kind.DECIMAL, Kind.PERCENT}
ALL: list[tuple[str, Field]] = [
    (name, field)
    for name, fields in (
        *((noun, noun_fields(noun)) for noun in FORMS),
        *((name, fields_of(wish)) for name, wish in wishes().items()),
    )
    for field in fields
    if field.kind in FIGURES and not field.refers
]


@pytest.mark.parametrize(("name", "field"), ALL, ids=lambda one: one if isinstance(one, str) else one.name)
def test_every_figure_has_a_limit_that_is_said_with_its_unit(name: str, field: Field) -> None:
    assert field.most is not None
    beyond = field.beyond(field.most + 1)
    assert beyond.startswith("must be at most ")
    assert field.unit in ("", "h:mm") or beyond.endswith(field.unit)
    assert field.beyond(field.most) == ""


@pytest.mark.parametrize(
    ("noun", "name", "typed", "limit"),
    [
        ("spool", "content", "1000000", "50000 g"),
        ("material", "density", "100", "12 g/cm³"),
        ("part", "print_time", "2000 h", "60 days"),
        ("part", "print_time", "87600 h", "longer than a year"),
        ("part", "grams", "99999999", "50000 g"),
        ("printer", "bed_x", "99999", "10000 mm"),
        ("settings", "kwh_price", "30", "10"),
        ("print file", "lines", "FL07 x999999", "at most 10000 of a part"),
        ("supplier", "cutoff_time", "25:00", "23:59"),
    ],
)
def test_what_no_bench_sees_is_refused_with_the_limit(noun: str, name: str, typed: str, limit: str) -> None:
    field = next(field for field in noun_fields(noun) if field.name == name)
    with pytest.raises(ValueError, match=limit):
        field.parse(typed)


def test_a_number_of_something_that_is_there_has_no_limit_of_its_own() -> None:
    described: Any = asks("print", Kind.WHOLE, refers="print")
    assert described.metadata["field"].most is None
