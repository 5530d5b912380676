"""The lines of Journal: groups newest first by day, and the rows of one before and after, in words."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from buildlog.facts.journal import REDO, UNDO, WISH, standing_of
from buildlog.screens.lines import soon
from buildlog.screens.widgets.rows import Cell, GridRow, Hint, SpanCell, group_row
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import Moment, minutes_between
from buildlog.wording import clock, count, day, grams, hours, mm

if TYPE_CHECKING:
    from buildlog.facts.journal import JournalGroup
    from buildlog.facts.snapshot import Snapshot

OLDER = "older"
LATE_FROM_MINUTES = 2
"""So much later than it happened a fact must be recorded for the line to say when it happened."""
ROWS_AT_MOST = 200
"""Rows of one group that are told in full: reading a file can write thousands."""
TURNED = {UNDO: "took back", REDO: "put back"}

Entry = tuple[str, int, str | None, str | None]


def group_rows(groups: Sequence[JournalGroup], now: Moment, zone: str, program: str, more: bool) -> list[GridRow]:
    """Key ``group:ID``; `groups` newest first, `program` is the one that runs here, `more`: there are older ones."""
    stands = {group.id for group in standing_of(reversed(groups)).wishes}
    rows: list[GridRow] = []
    last = ""
    for group in groups:
        heading = day(group.recorded_at, zone)
        if heading != last:
            rows.append(group_row(f"day:{group.id}", heading))
            last = heading
        rows.append(_group(group, now, zone, "here" if group.program == program else "elsewhere", group.id in stands))
    if more:
        rows.append(GridRow(OLDER, (Cell(""), Cell("older changes: enter shows them", Tone.FAINT))))
    return rows


def _group(group: JournalGroup, now: Moment, zone: str, made: str, stands: bool) -> GridRow:
    past = group.kind == WISH and not stands
    late = abs(minutes_between(group.at, group.recorded_at)) >= LATE_FROM_MINUTES
    cells = (
        Cell(clock(group.recorded_at, zone), Tone.FAINT),
        Cell(summary_of(group), Tone.FAINT if past or group.kind != WISH else Tone.PLAIN),
        Cell(soon(group.at, now, zone) if late else "", Tone.FAINT),
        Cell(made, Tone.ACCENT if made == "here" else Tone.FAINT),
        Cell("" if group.kind != WISH else "taken back" if past else "stands", Tone.CAUTION if past else Tone.FAINT),
    )
    return GridRow(f"group:{group.id}", cells, Hint.PAST if past else Hint.ROW)


def summary_of(group: JournalGroup) -> str:
    """What was done, in a sentence; ``took back «…»`` for a turning."""
    if group.kind not in TURNED:
        return group.summary
    return f"{TURNED[group.kind]} «{group.summary.removeprefix(f'{group.kind}: ')}»"


def entry_rows(entries: Sequence[Entry], snapshot: Snapshot) -> list[GridRow]:
    """A line for each row that was written, with its columns beneath: old and new where it was changed."""
    rows: list[GridRow] = []
    in_words = _teller(snapshot)
    for number, (table, row_id, before, after) in enumerate(entries[:ROWS_AT_MOST]):
        old, new = (json.loads(image) if image else {} for image in (before, after))
        what = "changed" if old and new else "new" if new else "gone"
        code = (new or old).get("code") or ""
        thing = f"{table.replace('_', ' ')} {code or row_id}"
        rows.append(GridRow(f"row:{number}", (Cell(thing, Tone.STRONG), Cell(what, Tone.ACCENT))))
        rows += [
            GridRow(f"column:{number}:{name}", (Cell(_label(name)), _change(name, old, new, in_words)), depth=1)
            for name in (new or old)
            if _is_told(name, old, new)
        ]
    if len(entries) > ROWS_AT_MOST:
        more = f"and {count(len(entries) - ROWS_AT_MOST, 'row')} more: `buildlog journal NUMBER` tells all"
        rows.append(GridRow("more", (Cell(""), Cell(more, Tone.FAINT))))
    return rows


def _is_told(name: str, old: Mapping[str, Any], new: Mapping[str, Any]) -> bool:
    """The columns that differ; of a new or a lost row those that say something."""
    if old and new:
        return bool(old.get(name) != new.get(name))
    return name != "id" and (new or old)[name] not in (None, "", 0)


def _change(
    name: str, old: Mapping[str, Any], new: Mapping[str, Any], in_words: Callable[[str, Any], str]
) -> SpanCell:
    was, now = (in_words(name, row.get(name)) for row in (old, new))
    if not (old and new):
        return SpanCell(((now if new else was, Tone.PLAIN if new else Tone.FAINT),))
    return SpanCell(((was, Tone.FAINT), (" → ", Tone.ACCENT), (now, Tone.STRONG)))


def _label(name: str) -> str:
    for ending in ("_mg", "_minutes", "_um", "_minor", "_id", "_at"):
        name = name.removesuffix(ending)
    return name.replace("_", " ")


def _teller(snapshot: Snapshot) -> Callable[[str, Any], str]:
    """Says a stored value by the name of its column: with its unit, a code for an id, a moment of the home zone."""
    from buildlog.proposals.nouns import FORMS
    from buildlog.status.forms import SnapshotRows

    rows, zone = SnapshotRows(snapshot), snapshot.settings.home_zone
    units: dict[str, Callable[[Any], str]] = {
        "_mg": grams,
        "_minutes": hours,
        "_um": mm,
        "_minor": lambda minor: f"{minor / 100:.2f}",
        "_at": lambda at: f"{day(at, zone)} {clock(at, zone)}",
    }

    def told(name: str, value: Any) -> str:
        if value in (None, ""):
            return "–"
        table = name.removesuffix("_id")
        if table != name and table.replace("_", " ") in FORMS:
            found = rows.all(table, id=value)
            return str(getattr(found[0], "code", value)) if found else f"{value}, gone by now"
        ending = next((e for e in units if name.endswith(e) or (e == "_at" and name == "at")), "")
        return units[ending](value) if ending else str(value)

    return told
