"""The form of a thing as the record holds it now, read from any source of rows.

The reading side gives frozen rows of a Snapshot, the writing side rows of its unit of work: both carry the
names of the tables' columns, so one reading serves forms on screen, files read again and changes.
"""

from collections.abc import Iterator, Sequence
from enum import Enum
from functools import cache
from typing import Any, Protocol

from buildlog.proposals.field import Field, Kind
from buildlog.proposals.nouns import FORMS, key_from, key_of, noun_fields
from buildlog.proposals.recorded_apart import APART
from buildlog.terms import GoalKind


class Rows(Protocol):
    """Rows of a table whose columns have these values, in order of id."""

    def all(self, table: str, **equal: object) -> Sequence[Any]: ...


def table_of(noun: str) -> str:
    """The table that holds a noun's own rows."""
    return noun.replace(" ", "_")


def is_live(row: Any) -> bool:
    """Whether a noun's row is in use: neither retired nor, a usage, ended."""
    return getattr(row, "retired_at", None) is None and getattr(row, "ended_at", None) is None


def own_fields(noun: str) -> tuple[Field, ...]:
    """The fields that are kept in the noun's own row."""
    return tuple(field for field in noun_fields(noun) if not field.apart)


@cache
def _columns(noun: str) -> tuple[tuple[Field, str], ...]:
    """Its own fields, each with the column that holds it."""
    return tuple((field, field.stored_as) for field in own_fields(noun))


def form_of_row(rows: Rows, noun: str, row: Any) -> Any:
    """The form that would make this row, as things stand now."""
    values = {field.name: _value(rows, field, getattr(row, column)) for field, column in _columns(noun)}
    if noun in APART:
        values |= APART[noun](rows, row)
    return FORMS[noun](**values)


def key_of_row(rows: Rows, noun: str, row: Any) -> str:
    """What the thing of this row is called, as its form would be."""
    columns = _key_columns(noun)
    if columns is None:
        return key_of(form_of_row(rows, noun, row))
    return key_from(_value(rows, field, getattr(row, column)) for field, column in columns)


@cache
def _key_columns(noun: str) -> tuple[tuple[Field, str], ...] | None:
    """Its key fields with their columns; None where the row alone does not tell the key."""
    own = {field.name: (field, column) for field, column in _columns(noun)}
    names = FORMS[noun].KEY
    return tuple(own[name] for name in names) if own.keys() >= set(names) else None


def live_rows(rows: Rows, noun: str) -> list[Any]:
    """Rows of everything of a noun that is in use, in order of id."""
    return [row for row in rows.all(table_of(noun)) if is_live(row)]


def live_forms(rows: Rows, noun: str) -> Iterator[Any]:
    """Their forms."""
    return (form_of_row(rows, noun, row) for row in live_rows(rows, noun))


def rows_named(rows: Rows, noun: str, key: str) -> Sequence[Any]:
    """The rows that a key names, retired ones too; none where a code in it is not known."""
    fields = {field.name: field for field in noun_fields(noun)}
    names = FORMS[noun].KEY
    texts = key.split("/", len(names) - 1) if names else []
    if len(texts) != len(names):
        return ()
    try:
        values = {name: fields[name].parse(text) for name, text in zip(names, texts, strict=True)}
    except ValueError:
        return ()
    if noun == "goal":
        return _goals_named(rows, values)
    equal: dict[str, object] = {}
    for name, value in values.items():
        if fields[name].kind is Kind.REFERENCE and value is not None:
            found = rows.all(table_of(fields[name].refers), code=value)
            if not found:
                return ()
            value = found[0].id
        equal[fields[name].stored_as] = value
    return rows.all(table_of(noun), **equal)


def _goals_named(rows: Rows, values: dict[str, Any]) -> Sequence[Any]:
    return [
        row
        for build in rows.all("build", code=values["build"])
        for episode in rows.all("episode", build_id=build.id, number=values["number"])
        for row in rows.all("goal", episode_id=episode.id, kind=GoalKind(values["kind"]))
        if row.side == values["side"]
        and row.text == (values["text"] or "")
        and APART["goal"](rows, row)["code"] == values["code"]
    ]


def _value(rows: Rows, field: Field, stored: Any) -> Any:
    if field.kind is Kind.REFERENCE and stored is not None:
        return rows.all(table_of(field.refers), id=stored)[0].code
    return stored.value if isinstance(stored, Enum) else stored
