"""What makes the rows of the record: a frozen dataclass whose methods are written once for all of them.

    @row
    class Box:
        id: int
        code: str

It is what `dataclass(frozen=True, slots=True)` makes, without the six methods that are compiled anew for each class:
for all rows this took longer than reading a ledger of a thousand facts, and every start waited for it. The reader
fills rows a column at a time; called for one by one they are made more slowly than usual.
"""

from collections.abc import Callable
from dataclasses import FrozenInstanceError, dataclass, fields
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

C = TypeVar("C")


@dataclass_transform(frozen_default=True)
def row(cls: type[C]) -> type[C]:
    """All fields are to be given, by place or by name; equal are rows of one class with equal fields."""
    made = dataclass(init=False, repr=False, eq=False, slots=True)(cls)
    names = tuple(field.name for field in fields(made))  # type: ignore[arg-type]  # it is one by now
    for name, method in _methods(names).items():
        setattr(made, name, method)
    return made


def _methods(names: tuple[str, ...]) -> dict[str, Callable[..., Any]]:
    of, wanted = attrgetter(*names), frozenset(names)

    def fill(row: Any, *values: Any, **named: Any) -> None:
        given = dict(zip(names, values, strict=False)) | named
        if given.keys() != wanted or len(values) + len(named) != len(names):
            raise TypeError(f"{type(row).__name__} takes {', '.join(names)}, each once")
        for name, value in given.items():
            object.__setattr__(row, name, value)

    def equals(row: Any, other: object) -> Any:
        return of(row) == of(other) if other.__class__ is row.__class__ else NotImplemented

    def hashed(row: Any) -> int:
        return hash(of(row))

    def told(row: Any) -> str:
        return f"{type(row).__qualname__}({', '.join(f'{name}={getattr(row, name)!r}' for name in names)})"

    def refuse(row: Any, name: str, *_: Any) -> None:
        raise FrozenInstanceError(f"the field {name!r} of a {type(row).__name__} cannot be changed")

    return {
        "__init__": fill,
        "__eq__": equals,
        "__hash__": hashed,
        "__repr__": told,
        "__setattr__": refuse,
        "__delattr__": refuse,
    }
