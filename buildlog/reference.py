"""Loads shared/ into the frozen classes of `buildlog.facts.reference_data`, once per process.

A row that lacks a field, has one too many, or lies about its span is a ValueError that names it:
the files ship with the program, so that is a slip in the program and not something a person can meet.
"""

import json
import tomllib
from collections.abc import Mapping
from dataclasses import fields
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any, TypeVar

from buildlog.facts.reference_data import (
    Basis,
    BondKind,
    Caution,
    ClearanceClass,
    Figure,
    Known,
    Polymer,
    PrintClass,
    Reference,
    Usual,
)

Table = Mapping[str, Any]
T = TypeVar("T", ClearanceClass, PrintClass, BondKind)

_SHARED = Path(import_module("buildlog.shared").__path__[0])
"""Not by importlib.resources: that loads as much as half of what is read from here, and every start waits."""


@cache
def reference() -> Reference:
    """Everything in shared/; read at the first call, the same object afterwards."""
    numbers = _json("usual_numbers.json")  # tomllib takes 5 ms for it, json a tenth
    materials = _toml("materials.toml")
    said = _toml("cautions.toml")
    families = numbers["families"]
    return Reference(
        usual=Known("usual number", _usual(numbers["rows"])),
        clearances=Known("clearance class", _members(ClearanceClass, families["clearance"])),
        print_classes=Known("print class", _members(PrintClass, families["print_class"])),
        bonds=Known("bond", _members(BondKind, families["bond"])),
        default_tolerance_class=numbers["default_tolerance_class"],
        polymers=Known("polymer", _polymers(materials)),
        cautions=Known("caution", {key: Caution(key=key, **row) for key, row in said["caution"].items()}),
        deferral=said["deferral"],
        tolerance_tables=Known("tolerance table", _tolerance_tables()),
    )


def _toml(name: str) -> Table:
    return tomllib.loads((_SHARED / name).read_text("utf-8"))


def _json(name: str) -> Table:
    read: Table = json.loads((_SHARED / name).read_text("utf-8"))
    return read


def _tolerance_tables() -> dict[str, Table]:
    return {name: _json(f"{name}.json") for name in ("iso273", "iso286", "iso2768-1")}


def _span(key: str, raw: Any) -> tuple[float, float, float]:
    """(value, low, high) of `5` or `[5, 3, 8]`."""
    value, low, high = raw if isinstance(raw, list) else (raw, raw, raw)
    if not low <= value <= high:
        raise ValueError(f"shared/: {key} = {raw} is no value within a span")
    return value, low, high


def _usual(rows: list[Table]) -> dict[str, Usual]:
    found: dict[str, Usual] = {}
    for row in rows:
        basis = Basis(row["basis"])
        for key, raw in row["figures"].items():
            if key in found:
                raise ValueError(f"shared/: the usual number {key} is there twice")
            found[key] = Usual(*_span(key, raw), key, row["subject"], row["use"], basis)
    return found


def _members(kind: type[T], family: Table) -> dict[str, T]:
    """The rows of a family: a `name`, else figures, all on the basis of the family."""
    basis = Basis(family["basis"])
    return {
        key: kind(key=key, basis=basis, **{name: _word_or_figure(name, raw) for name, raw in row.items()})
        for key, row in family["members"].items()
    }


def _word_or_figure(name: str, raw: Any) -> Any:
    return raw if isinstance(raw, str | bool) else Figure(*_span(name, raw))


def _polymers(materials: Table) -> dict[str, Polymer]:
    basis = Basis(materials["basis"])
    wanted = {field.name for field in fields(Polymer)}
    found: dict[str, Polymer] = {}
    for key, row in materials["polymer"].items():
        if unknown := row.keys() - wanted:
            raise ValueError(f"shared/: polymer {key} has the unknown fields {sorted(unknown)}")
        read = {name: _word_or_figure(name, raw) for name, raw in row.items()}
        found[key] = Polymer(key=key, basis=basis, **{"printed_shrink_percent": None, **read})
    return found
