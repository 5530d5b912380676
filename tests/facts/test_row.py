"""A row is as the standard library's frozen dataclass with slots; both are asked the same here."""

from dataclasses import FrozenInstanceError, dataclass, fields, replace
from typing import Any

import pytest

from buildlog.facts.row import row


@row
class Ours:
    id: int
    code: str | None


@dataclass(frozen=True, slots=True)
class Usual:
    id: int
    code: str | None


BOTH = pytest.mark.parametrize("made", [Ours, Usual])


@BOTH
def test_it_is_made_by_place_and_by_name(made: Any) -> None:
    assert made(1, "A") == made(1, code="A") == made(code="A", id=1)


@BOTH
@pytest.mark.parametrize(
    ("values", "named"), [((1,), {}), ((1, "A", 2), {}), ((1, "A"), {"id": 1}), ((1,), {"no": 2})]
)
def test_every_field_is_given_once(made: Any, values: tuple[Any, ...], named: dict[str, Any]) -> None:
    with pytest.raises(TypeError):
        made(*values, **named)


@BOTH
def test_equal_fields_are_equal_rows_with_one_hash(made: Any) -> None:
    assert made(1, "A") == made(1, "A")
    assert made(1, "A") != made(1, "B")
    assert len({made(1, "A"), made(1, "A"), made(2, "A")}) == 2


def test_rows_of_two_classes_are_never_equal() -> None:
    assert Ours(1, "A") != Usual(1, "A")


@BOTH
def test_it_cannot_be_changed(made: Any) -> None:
    one = made(1, "A")
    with pytest.raises(FrozenInstanceError):
        one.code = "B"
    with pytest.raises(FrozenInstanceError):
        del one.code
    assert one == made(1, "A")


@BOTH
def test_it_has_room_for_its_fields_only(made: Any) -> None:
    assert not hasattr(made(1, "A"), "__dict__")
    assert [field.name for field in fields(made)] == ["id", "code"]


@BOTH
def test_a_changed_copy_is_another_row(made: Any) -> None:
    one = made(1, "A")
    assert replace(one, code="B") == made(1, "B")
    assert one.code == "A"


@BOTH
def test_it_is_told_with_its_fields(made: Any) -> None:
    assert repr(made(1, None)) == f"{made.__name__}(id=1, code=None)"
