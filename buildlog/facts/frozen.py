"""Frozen dataclasses that are cheap to declare: what is compiled for one is compiled when it is first called.

    @frozen
    class Box:
        id: int
        code: str

It is what `dataclass(frozen=True, slots=True)` makes, which compiles six methods for each class at once: for all
classes of facts and status this took longer than reading a ledger of a thousand facts, and every start waited for it.
Here five are written once for all, and `__init__` is compiled for those classes that are called at all: the reader
makes its rows by `many`.
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from itertools import repeat
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

C = TypeVar("C")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[C]) -> type[C]:
    """Equal are objects of one class with equal fields. A method that the class writes itself is kept."""
    return _frozen(cls, slots=True)


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen_with_late_answers(cls: type[C]) -> type[C]:
    """The same without slots: a `cached_property` keeps what it has answered in the object."""
    return _frozen(cls, slots=False)


def _frozen(cls: type[C], slots: bool) -> type[C]:
    cls.__doc__ = cls.__doc__ or cls.__name__  # without one, dataclass would look into the signature for it
    made: Any = dataclass(init=False, repr=False, eq=False, slots=slots)(cls)
    for name, method in _methods(made, fields(made)).items():
        if name not in cls.__dict__:
            setattr(made, name, method)
    return made  # type: ignore[no-any-return]  # the class itself, with slots


def _methods(made: Any, given: tuple[Field[Any], ...]) -> dict[str, Callable[..., Any]]:
    names = [f.name for f in given if f.compare]
    compared: Callable[[Any], Any] = attrgetter(*names) if names else lambda _: ()
    told_of = tuple(f.name for f in given if f.repr)

    def first(one: Any, *values: Any, **named: Any) -> None:
        made.__init__ = _filling(made, given)
        made.__init__(one, *values, **named)

    def equals(one: Any, other: object) -> Any:
        return compared(one) == compared(other) if other.__class__ is one.__class__ else NotImplemented

    def hashed(one: Any) -> int:
        return hash(compared(one))

    def told(one: Any) -> str:
        return f"{type(one).__qualname__}({', '.join(f'{name}={getattr(one, name)!r}' for name in told_of)})"

    def refuse(one: Any, name: str, *_: Any) -> None:
        raise FrozenInstanceError(f"the field {name!r} of a {type(one).__name__} cannot be changed")

    return {
        "__init__": first,
        "__eq__": equals,
        "__hash__": hashed,
        "__repr__": told,
        "__setattr__": refuse,
        "__delattr__": refuse,
    }


def _filling(cls: Any, given: tuple[Field[Any], ...]) -> Callable[..., None]:
    """`__init__` of a class: slots, or the object's own dict, take their values whatever `__setattr__` says."""
    names: dict[str, Any] = {"_left_out": MISSING}
    wanted, lines, has_slots = ["self"], [], "__slots__" in cls.__dict__
    for f in given:
        value, default = f.name, ""
        if f.default is not MISSING:
            names[f"_usual_{f.name}"], default = f.default, f" = _usual_{f.name}"
        elif f.default_factory is not MISSING:
            names[f"_make_{f.name}"], default = f.default_factory, " = _left_out"
            value = f"_make_{f.name}() if {f.name} is _left_out else {f.name}"
        wanted.append(f.name + default)
        if has_slots:
            names[f"_set_{f.name}"] = getattr(cls, f.name).__set__
            lines.append(f"    _set_{f.name}(self, {value})")
        else:
            lines.append(f"    self.__dict__[{f.name!r}] = {value}")
    if hasattr(cls, "__post_init__"):
        lines.append("    self.__post_init__()")
    exec(
        f"def __init__({', '.join(wanted)}):\n" + "\n".join(lines or ["    pass"]), names
    )  # as dataclass itself does
    filling: Callable[..., None] = names["__init__"]
    return filling


def many(
    cls: type[C], turned: Mapping[str, Callable[[Any], Any]]
) -> Callable[[Collection[tuple[Any, ...]]], tuple[C, ...]]:
    """What makes an object of a class with slots of each tuple of values, in order of its fields; ``turned`` are
    calls that the values of some fields go through. The objects are filled as ones of an open class with the same
    slots, then given their own, which freezes them: a third of what it costs to set slots past `__setattr__`.
    """
    made: Any = cls
    open_class: Any = type(cls.__name__, (), {"__slots__": made.__slots__})
    names: dict[str, Any] = {f"_turn_{name}": turn for name, turn in turned.items()} | {"_own_class": cls}
    exec(
        f"def fill(found, values):\n"
        f"    for one, ({''.join(f'one.{f.name}, ' for f in fields(made))}) in zip(found, values):\n"
        + "".join(f"        one.{name} = _turn_{name}(one.{name})\n" for name in turned)
        + "        one.__class__ = _own_class\n",
        names,
    )
    fill, new = names["fill"], object.__new__

    def made_of(values: Collection[tuple[Any, ...]]) -> tuple[C, ...]:
        found = tuple(map(new, repeat(open_class, len(values))))
        fill(found, values)
        return found

    return made_of
