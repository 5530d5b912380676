"""Ours is as the standard library's frozen dataclass with slots; both are asked the same here."""

from dataclasses import FrozenInstanceError, dataclass, field, fields, replace
from typing import Any

import pytest

from buildlog.facts.frozen import frozen


@frozen
class Ours:
    id: int
    code: str | None


@dataclass(frozen=True, slots=True)
class Usual:
    id: int
    code: str | None


@frozen
class OursWithDefaults:
    id: int
    many: list[int] = field(default_factory=list)
    code: str = "usual"
    beside: int = field(default=0, compare=False, repr=False)

    def __post_init__(self) -> None:
        if self.id < 0:
            raise ValueError(self.id)


@dataclass(frozen=True, slots=True)
class UsualWithDefaults:
    id: int
    many: list[int] = field(default_factory=list)
    code: str = "usual"
    beside: int = field(default=0, compare=False, repr=False)

    def __post_init__(self) -> None:
        if self.id < 0:
            raise ValueError(self.id)


BOTH = pytest.mark.parametrize("made", [Ours, Usual])
WITH_DEFAULTS = pytest.mark.parametrize("made", [OursWithDefaults, UsualWithDefaults])


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
def test_equal_fields_are_equal_and_have_one_hash(made: Any) -> None:
    assert made(1, "A") == made(1, "A")
    assert made(1, "A") != made(1, "B")
    assert len({made(1, "A"), made(1, "A"), made(2, "A")}) == 2


def test_two_classes_are_never_equal() -> None:
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
def test_a_changed_copy_is_another_one(made: Any) -> None:
    one = made(1, "A")
    assert replace(one, code="B") == made(1, "B")
    assert one.code == "A"


@BOTH
def test_it_is_told_with_its_fields(made: Any) -> None:
    assert repr(made(1, None)) == f"{made.__name__}(id=1, code=None)"


@WITH_DEFAULTS
def test_what_is_left_out_takes_its_default(made: Any) -> None:
    assert made(1) == made(1, [], "usual")
    assert made(1, code="B").code == "B"
    assert made(1).many is not made(1).many


@WITH_DEFAULTS
def test_a_field_can_be_left_out_of_comparing_and_telling(made: Any) -> None:
    assert made(1, beside=1) == made(1, beside=2)
    assert repr(made(1, beside=1)) == f"{made.__name__}(id=1, many=[], code='usual')"


@WITH_DEFAULTS
def test_it_is_checked_when_it_is_made(made: Any) -> None:
    with pytest.raises(ValueError, match="-1"):
        made(-1)


def test_without_a_field_all_are_equal() -> None:
    @frozen
    class Nothing:
        pass

    assert Nothing() == Nothing()
    assert repr(Nothing()).endswith("Nothing()")
