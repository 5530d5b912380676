"""Reads fit the tables: every query prepares, columns and types agree."""

import dataclasses
import typing
from concurrent.futures import ThreadPoolExecutor
from enum import StrEnum

import pytest

from buildlog.facts.snapshot import Snapshot
from buildlog.ledger import Ledger
from buildlog.record.reader import SNAPSHOT_FIELDS, rows_of, table_name
from buildlog.record.tables import JOURNAL_TABLES, TABLES

HINTS = typing.get_type_hints(Snapshot)


def row_type(name: str) -> type:
    return HINTS[name] if name == "settings" else typing.get_args(HINTS[name])[0]


def core(annotation: object) -> object:
    """The type without None; a moment is text."""
    inner = [arg for arg in typing.get_args(annotation) if arg is not type(None)]
    kind = inner[0] if inner else annotation
    return getattr(kind, "__supertype__", kind)


def may_be_none(annotation: object) -> bool:
    return type(None) in typing.get_args(annotation)


@pytest.mark.parametrize("name", SNAPSHOT_FIELDS)
def test_a_fact_has_the_columns_and_types_of_its_table(name: str) -> None:
    table = TABLES[table_name(name)]
    fact_hints = typing.get_type_hints(row_type(name))
    stored = {key: field.annotation for key, field in table.model_fields.items()}
    assert list(fact_hints) == list(stored)
    for key, annotation in stored.items():
        assert core(fact_hints[key]) == core(annotation), key
        assert key == "id" or may_be_none(fact_hints[key]) == may_be_none(annotation), key


def test_every_table_but_the_journal_and_the_file_forms_is_in_the_snapshot() -> None:
    assert {table_name(name) for name in SNAPSHOT_FIELDS} == set(TABLES) - JOURNAL_TABLES - {"file_row"}


def test_a_fresh_ledger_reads_into_a_snapshot_with_its_one_settings_row(ledger: Ledger) -> None:
    snapshot = ledger.snapshot()
    assert snapshot.settings.home_zone == "Europe/Berlin"
    assert all(getattr(snapshot, name) == () for name in SNAPSHOT_FIELDS if name != "settings")


def test_stored_values_come_back_as_enums_and_booleans(ledger: Ledger, add: typing.Any) -> None:
    add("build", code="LB", name="Lantern Beetle")
    build = ledger.snapshot().builds[0]
    assert isinstance(build.state, StrEnum)
    assert dataclasses.is_dataclass(build)


@pytest.mark.parametrize("name", SNAPSHOT_FIELDS)
def test_a_row_made_with_many_others_is_the_row_that_a_call_makes(name: str) -> None:
    row = row_type(name)
    assert not hasattr(row, "__post_init__")
    hints = typing.get_type_hints(row)
    stored = [tuple(sample(hints[key], number) for key in hints) for number in (1, 2)]
    held = [tuple(None if may_be_none(hints[key]) else sample(hints[key], 3) for key in hints)]
    filled = rows_of(row, [*stored, *held])
    assert filled == tuple(row(*map(as_told, hints.values(), values)) for values in [*stored, *held])
    assert [hash(one) for one in filled] == [hash(dataclasses.replace(one)) for one in filled]
    assert all(type(one) is row for one in filled)
    with pytest.raises(dataclasses.FrozenInstanceError):
        filled[0].id = 3


def sample(annotation: object, number: int) -> object:
    """A value as SQLite stores it."""
    kind = core(annotation)
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return list(kind)[number % len(kind)].value
    if kind is bool:
        return number % 2
    return f"text {number}" if kind is str else number


def as_told(annotation: object, stored: object) -> object:
    kind = core(annotation)
    if isinstance(kind, type) and issubclass(kind, (StrEnum, bool)):
        return None if stored is None else kind(stored)
    return stored


def test_two_threads_may_read_at_once(ledger: Ledger) -> None:
    def read(number: int) -> int:
        return len(ledger.journal(1)) if number % 2 else len(ledger.snapshot(afresh=True).builds)

    with ThreadPoolExecutor(4) as threads:
        assert set(threads.map(read, range(400))) == {0}
