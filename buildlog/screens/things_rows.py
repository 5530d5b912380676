"""The lines of Things: every noun with how many there are, and the things of one."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from buildlog.proposals.field import Field, Kind
from buildlog.proposals.nouns import FORMS, noun_fields
from buildlog.proposals.recorded import form_of_row, live_rows
from buildlog.screens.lines import BETWEEN
from buildlog.screens.widgets.rows import Cell, GridRow, LateCell, Spans
from buildlog.screens.widgets.tones import Tone
from buildlog.status.forms import SnapshotRows, live_rows_of
from buildlog.status.noted import in_words
from buildlog.wording import day_and_clock

if TYPE_CHECKING:
    from collections.abc import Sequence

    from buildlog.facts.journal import Note
    from buildlog.facts.snapshot import Snapshot

NOUNS = (
    "build", "assembly", "part", "usage", "step", "wait", "fit test", "question",
    "printer", "material", "spool", "print file", "bought item", "supplier", "box", "resource",
    "episode", "goal", "shot", "milestone", "viewer question", "promise", "settings",
)  # fmt: skip
"""What is made, what it is made with, the weeks, the ledger itself."""

MEANS = {
    "build": "one project; several share printers, stock and people",
    "assembly": "a node of the build's tree, paired when there is a left and a right one",
    "part": "a design: printed, bought or made by hand, with its figures",
    "usage": "a part in an assembly: how many per position, on which sides",
    "step": "bench work in an assembly, or on a part",
    "wait": "an assembly, or a step of it, that waits for another",
    "fit test": "what must be checked, and which parts it touches",
    "question": "something undecided that holds assemblies or parts till answered",
    "printer": "bed, heads, what it can, and whether it may run unattended",
    "material": "polymer, colour, pack, price, drying; what spools are made of",
    "spool": "one reel, with what is on it",
    "print file": "a file that is ready to run: what it lays down, hours, grams",
    "bought item": "what is bought and counted: screws, bearings, sheets",
    "supplier": "lead time, order cut-off, delivery charge",
    "box": "where things are kept",
    "resource": "a jig, a dryer or a person",
    "episode": "a stretch of work that ends with a filming day",
    "goal": "what an episode is to reach",
    "shot": "something to film; before a step that cannot be undone it holds that",
    "viewer question": "what somebody who watches asked, and the answer; it holds nothing",
    "promise": "who supplied or lent what, and what was promised for it",
    "milestone": "a dated thing to make, hard or soft",
    "settings": "home zone, currency, electricity, the day's rhythm",
}


def noun_rows(snapshot: Snapshot) -> list[GridRow]:
    """Key ``noun:NOUN``."""
    rows = SnapshotRows(snapshot)
    counts = {noun: len(live_rows(rows, noun)) for noun in NOUNS}
    return [
        GridRow(f"noun:{noun}", (Cell(noun), Cell(str(counts[noun]) if FORMS[noun].KEY else "", Tone.FAINT)))
        for noun in NOUNS
    ]


def thing_rows(snapshot: Snapshot, noun: str) -> list[GridRow]:
    """Key ``thing:NOUN:KEY``. There may be thousands: what each is like is looked up where it is drawn."""
    from buildlog.status.notes import notes_of

    rows, zone, notes = SnapshotRows(snapshot), snapshot.settings.home_zone, notes_of(snapshot, noun)

    def told(thing: tuple[str, Any]) -> Spans:
        key, row = thing
        return _with_note(_spans(form_of_row(rows, noun, row), zone), notes.get(key, ()), zone)

    return [
        GridRow(f"thing:{noun}:{key}", (Cell(key or noun), LateCell(told, (key, row))))
        for key, row in live_rows_of(snapshot, noun).items()
    ]


def _with_note(spans: Spans, notes: Sequence[Note], zone: str) -> Spans:
    """Behind its name the newest note with its day and picture, and how many there are."""
    if not notes:
        return spans
    noted = in_words(notes, zone)
    (title, tone), *rest = spans
    if not title:
        return ((f"{noted}{BETWEEN}", Tone.ACCENT), *rest)
    return ((title, tone), (f"{BETWEEN}{noted}", Tone.ACCENT), *rest)


def told_of_form(form: Any, zone: str = "") -> str:
    """What it is called and all that is not as usual, in one line."""
    return "".join(text for text, _ in _spans(form, zone))


TITLES = ("name", "text", "what", "promised")
"""Fields that say in words what a thing is."""


def _spans(form: Any, zone: str) -> Spans:
    titles, others = _parted(form.NOUN)
    title = next((said for said in (str(getattr(form, name)) for name in titles) if said), "")
    values = ((field, getattr(form, field.name)) for field in others)
    told = [_told(field, value, zone) for field, value in values if not form.KEY or _says(field, value)]
    rest = BETWEEN.join(told)
    return ((title, Tone.PLAIN), (f"{BETWEEN}{rest}" if title and rest else rest, Tone.FAINT))


@cache
def _parted(noun: str) -> tuple[tuple[str, ...], tuple[Field, ...]]:
    """Names of the fields that say what it is, and the fields that tell the rest; what its key says is in neither."""
    key, fields = FORMS[noun].KEY, noun_fields(noun)
    names = {field.name for field in fields}
    return (
        tuple(name for name in TITLES if name in names and name not in key),
        tuple(field for field in fields if field.name not in (*key, *TITLES)),
    )


def _says(field: Field, value: Any) -> bool:
    return value not in (None, "", ()) and value is not False and (value != field.default or field.required)


def _told(field: Field, value: Any, zone: str) -> str:
    """``handed``, ``LEG``, ``print time 5:00``: the label where the value alone says too little."""
    if field.kind is Kind.YES_NO:
        return field.label
    if field.kind is Kind.MOMENT:
        return f"{field.label} {day_and_clock(value, zone) if zone else value}"
    if field.kind in (Kind.CHOICE, Kind.REFERENCE):
        return field.offered(value)
    return f"{field.label} {field.offered(value)}{f' {field.unit}' if field.unit not in ('', 'h:mm') else ''}"
