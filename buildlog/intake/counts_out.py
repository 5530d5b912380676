"""What lies on the shelf as a list of counts, one for each part, side and grade.

A count is laid over all lots that it names: where a print made such pieces there is a line with 0 too, so that read
beside a print history it says the same shelf. A box narrows a count to what lies in it, and what a history prints
lies in none: a box is named only of pieces that no print made, and «(lies in)» tells a person of the others.
A new ledger knows only the newest revision: older pieces are told where they count like it, else left out.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from buildlog.facts.old_revisions import good_for
from buildlog.facts.pieces import Lot
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.intake.csv_out import csv_rows, side_said
from buildlog.intake.lists import COUNTS, fields_of_list
from buildlog.proposals.field import Field, Kind
from buildlog.proposals.lines import Line, write_lines
from buildlog.terms import Grade, Moment, OldGoodFor, Side

LIES_IN = Field("lies_in", "(lies in)", Kind.TEXT)
"""In brackets, so that a reading leaves it out."""

Key = tuple[int, Side, Grade]


class Lying(NamedTuple):
    """So many pieces of a lot in a box; ``put_there`` by somebody, else it is where such pieces are kept."""

    lot: Lot
    pieces: int
    box_id: int | None
    put_there: bool


def counts(snapshot: Snapshot, lying: Iterable[Lying], now: Moment) -> str:
    """The list as of ``now``."""
    there = grouped(lying, lambda one: _key(one.lot))
    printed = {_key(lot) for lot in snapshot.lots if lot.job_line_id is not None and lot.made_at <= now}
    keys = sorted(key for key in {*there, *printed} if snapshot.part[key[0]].retired_at is None)
    boxes = {box.id: box.code for box in snapshot.boxes}
    in_use = {box.id for box in snapshot.boxes if box.retired_at is None}
    rows: list[dict[str, Any]] = []
    for key in keys:
        letter, counted = _that_count(snapshot, there.get(key, []))
        said = {**_said_of(snapshot, key), "at": now, "revision": letter}
        if key not in printed and all(one.put_there and one.box_id in in_use for one in counted):
            by_box = grouped(counted, lambda one: one.box_id)
            rows += ({**said, "pieces": _sum(of), "box": boxes[box_id or 0]} for box_id, of in by_box.items())
        else:
            rows.append({**said, "pieces": _sum(counted), "lies_in": write_lines(tuple(_boxed(boxes, counted)))})
    return csv_rows(COUNTS, (*fields_of_list(COUNTS), LIES_IN), rows)


def _key(lot: Lot) -> Key:
    return lot.part_id, lot.side, lot.grade


def _said_of(snapshot: Snapshot, key: Key) -> dict[str, Any]:
    part_id, side, grade = key
    return {"part": snapshot.part[part_id].code, "side": side_said(side), "grade": grade}


def _that_count(snapshot: Snapshot, there: list[Lying]) -> tuple[str | None, list[Lying]]:
    """Pieces of every revision, where all count like the newest; else its letter, and those of it alone."""
    if not there:
        return None, there
    revisions = snapshot.revisions_of[there[0].lot.part_id]
    if all(good_for(revisions, one.lot.revision_id, one.lot.side) is OldGoodFor.STILL_GOOD for one in there):
        return None, there
    newest = revisions[-1]
    return newest.letter, [one for one in there if one.lot.revision_id == newest.id]


def _boxed(boxes: Mapping[int, str], lying: list[Lying]) -> Iterator[Line]:
    for box_id, of in grouped(lying, lambda one: one.box_id).items():
        if box_id is not None:
            yield Line(boxes[box_id], quantity=_sum(of))


def _sum(lying: list[Lying]) -> int:
    return sum(one.pieces for one in lying)
