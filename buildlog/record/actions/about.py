"""Finds what a note is about: any noun with its key, a piece, or a position."""

from collections.abc import Callable
from typing import TypeVar

from buildlog.errors import BadWish, NotFound, Refused
from buildlog.proposals.notes import BESIDE_NOUNS
from buildlog.proposals.nouns import FORMS
from buildlog.proposals.places import read_pieces, read_place
from buildlog.proposals.recorded import rows_named
from buildlog.record.actions.picking import one_lot
from buildlog.record.actions.places import position_at
from buildlog.record.actions.storing.rows import WorkRows
from buildlog.record.tables import TABLES
from buildlog.record.tables.pieces import Lot
from buildlog.record.tables.printing import Job
from buildlog.record.writer import Work

T = TypeVar("T")


def thing_named(work: Work, text: str) -> tuple[str, int]:
    """(noun, id of its row) behind ``part FL07``, ``FL07R-C``, ``#12``, ``position TOE R.2`` or a code alone."""
    text = " ".join(text.split())
    for noun in sorted((*FORMS, *BESIDE_NOUNS), key=len, reverse=True):
        if text.lower().startswith(f"{noun} "):
            return noun, _row_id(work, noun, text[len(noun) :].strip())
    if text.lower() in FORMS and not FORMS[text.lower()].KEY:
        return text.lower(), _row_id(work, text.lower(), "")
    marked = work.first(Lot, mark=text.upper())
    if marked is not None:
        return "lot", marked.id or 0
    if text.startswith("#"):
        return "lot", _row_id(work, "lot", text)
    found = [(noun, row) for noun in FORMS if FORMS[noun].KEY for row in rows_named(WorkRows(work), noun, text)]
    if len(found) > 1:
        nouns = " and ".join(f"{noun} {text}" for noun, _ in found)
        raise Refused(f"«{text}» may be {nouns}: say which.")
    if found:
        return found[0][0], found[0][1].id
    return "position", _row_id(work, "position", text)


def _row_id(work: Work, noun: str, key: str) -> int:
    if noun == "lot":
        return one_lot(work, _read(read_pieces, key)).id or 0
    if noun == "position":
        return position_at(work, _read(read_place, key)).id or 0
    if noun == "print":
        job = work.first(Job, id=int(key.lstrip("#"))) if key.lstrip("#").isdigit() else None
        if job is None:
            raise NotFound("print", key)
        return job.id or 0
    if noun == "order":
        return int(work.by_code(TABLES["purchase"], key, "order").id or 0)
    rows = rows_named(WorkRows(work), noun, key)
    if not rows:
        raise NotFound(noun, key)
    return int(rows[-1].id)


def _read(reading: Callable[[str], T], text: str) -> T:
    try:
        return reading(text)
    except ValueError as error:
        raise BadWish((("about", str(error)),)) from error
