"""The forms of things as they stand now, from a Snapshot: for forms on screen, and for files read again."""

from collections.abc import Sequence
from operator import attrgetter
from typing import Any

from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.proposals.nouns import key_of
from buildlog.proposals.recorded import (
    form_of_row,
    is_live,
    key_of_row,
    live_forms,
    live_rows,
    rows_named,
    table_of,
)

_PLURALS = {
    "assembly": "assemblies",
    "box": "boxes",
    "spool_entry": "spool_entries",
    "bought_entry": "bought_entries",
}


class SnapshotRows:
    """The rows of a Snapshot by table and the values of columns; an index is made when first asked for."""

    def __init__(self, snapshot: Snapshot) -> None:
        self._snapshot = snapshot
        self._indexes: dict[tuple[str, ...], dict[Any, list[Any]]] = {}

    def all(self, table: str, **equal: object) -> Sequence[Any]:
        if not equal:
            return self._rows(table)
        asked = (table, *equal)
        if asked not in self._indexes:
            self._indexes[asked] = grouped(self._rows(table), attrgetter(*equal))
        values = tuple(equal.values())
        return self._indexes[asked].get(values if len(values) > 1 else values[0], ())

    def _rows(self, table: str) -> Sequence[Any]:
        if table == "settings":
            return (self._snapshot.settings,)
        rows: Sequence[Any] = getattr(self._snapshot, _PLURALS.get(table, f"{table}s"))
        return rows


def form_of(snapshot: Snapshot, noun: str, key: str) -> Any:
    """The form of the thing in use that the key names; None where there is none."""
    rows = SnapshotRows(snapshot)
    live = [row for row in rows_named(rows, noun, key) if is_live(row)]
    return form_of_row(rows, noun, live[0]) if live else None


def forms_of(snapshot: Snapshot, noun: str) -> dict[str, Any]:
    """Every thing of a noun that is in use, by key, in the order in which they came."""
    return {key_of(form): form for form in live_forms(SnapshotRows(snapshot), noun)}


def retired_of(snapshot: Snapshot, noun: str) -> dict[str, Any]:
    """Every thing of a noun that is out of use, by key; none whose key is in use again."""
    rows = SnapshotRows(snapshot)
    retired = [row for row in rows.all(table_of(noun)) if not is_live(row)]
    found = {key_of(form): form for form in (form_of_row(rows, noun, row) for row in retired)}
    in_use = live_rows_of(snapshot, noun) if found else {}
    return {key: form for key, form in found.items() if key not in in_use}


def keys_of(snapshot: Snapshot, noun: str) -> tuple[str, ...]:
    """What the things of a noun in use are called."""
    return tuple(live_rows_of(snapshot, noun))


def live_rows_of(snapshot: Snapshot, noun: str) -> dict[str, Any]:
    """The row of every thing of a noun that is in use, by key, in the order in which they came."""
    rows = SnapshotRows(snapshot)
    return {key_of_row(rows, noun, row): row for row in live_rows(rows, noun)}
