"""What a form starts from: for a new thing the last one of its noun, for a copy all but what makes it itself."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from buildlog.proposals.field import Kind
from buildlog.proposals.lines import Ask, read_ask
from buildlog.proposals.nouns import FORMS, noun_fields
from buildlog.screens.naming import names_of
from buildlog.status.forms import forms_of
from buildlog.status.strange_words import classes_of_printers
from buildlog.terms import moment
from buildlog.wording import home

if TYPE_CHECKING:
    from collections.abc import Collection

    from buildlog.facts.snapshot import Snapshot

CARRIED = {
    "box": ("place",),
    "resource": ("kind",),
    "material": ("polymer", "diameter", "pack", "price", "supplier", "lead_days"),
    "spool": ("material", "content", "tare", "price", "box"),
    "bought item": ("unit", "account", "supplier", "box"),
    "assembly": ("build", "parent", "joined"),
    "part": ("build", "origin", "handed", "stage", "assembly", "side_rule", "figures_from", "nozzle"),
    "usage": ("assembly", "side_rule"),
    "fit test": ("assembly", "kind", "rule", "bench_time"),
    "step": ("assembly", "part", "kind", "bench_time", "jig"),
    "wait": ("assembly",),
    "question": ("build",),
    "print file": ("printer_class", "material", "nozzle", "settings_line", "estimate_from"),
    "milestone": ("build", "kind"),
    "episode": ("build",),
    "shot": ("build", "episode"),
    "viewer question": ("build", "asked_in"),
    "promise": ("build",),
    "goal": ("build", "number", "kind"),
}
"""By noun, the fields that the next thing most often shares with the last (our choice)."""

OWN = {
    "spool": ("received", "opened", "weighed"),
    "bought item": ("stock",),
    "question": ("text", "asked", "answer", "answered"),
    "shot": ("filmed", "safe", "overruled", "overruled_why"),
    "viewer question": ("text", "asked", "answer", "answered", "answered_in"),
    "promise": ("made", "kept"),
    "print file": ("prepared",),
    "assembly": ("lead_side", "lead_test"),
}
"""By noun, what a copy does not take over: facts of the one thing."""

ASSUMED = ("supplier",)
"""Nouns of which the only one is named even where that may be left empty (our choice)."""

FIRST_CODES = {"question": "Q1"}
"""By noun, the code of the very first one, where its name is too long to make one of (our choice)."""

_NUMBERED = re.compile(r"(.*?)(\d+)")
DAYS_BETWEEN_FILMINGS = 7


def values_to_add(snapshot: Snapshot, noun: str) -> dict[str, Any]:
    """What the last one says of the fields that are usually alike, and the next code where codes are numbered."""
    values = _only_answers(snapshot, noun)
    forms = forms_of(snapshot, noun)
    if not forms:
        return values | ({"code": FIRST_CODES[noun]} if noun in FIRST_CODES else {})
    last = list(forms.values())[-1]
    values |= {name: getattr(last, name) for name in CARRIED.get(noun, ())}
    if FORMS[noun].KEY == ("code",) and _NUMBERED.fullmatch(last.code):
        values["code"] = next_code(last.code, forms)
    if noun == "episode":
        values["number"] = last.number + 1
        films = home(last.films_at, snapshot.settings.home_zone) + timedelta(days=DAYS_BETWEEN_FILMINGS)
        values["films_at"] = moment(films)
    return values


def wanted_first(snapshot: Snapshot, noun: str) -> str:
    """The noun of which there must be one before the form can be filled in; "" for none."""
    needed = (field.refers for field in noun_fields(noun) if field.required and field.refers in FORMS)
    return next((refers for refers in needed if not names_of(snapshot, refers)), "")


def values_to_copy(snapshot: Snapshot, noun: str, form: Any) -> dict[str, Any]:
    """Everything but what makes it itself; the next code where it has one."""
    names = [field.name for field in noun_fields(noun) if field.name not in OWN.get(noun, ())]
    values = {name: getattr(form, name) for name in names}
    if FORMS[noun].KEY == ("code",):
        values["code"] = next_code(form.code, forms_of(snapshot, noun))
    return values


def next_code(code: str, taken: Collection[str]) -> str:
    """``FL08`` after ``FL07``, ``SHIN-2`` after ``SHIN``: the first one that is free."""
    match = _NUMBERED.fullmatch(code)
    stem, digits = (match[1], match[2]) if match else (f"{code}-", "1")
    number = int(digits) + 1
    while f"{stem}{number:0{len(digits)}d}" in taken:
        number += 1
    return f"{stem}{number:0{len(digits)}d}"


def only_material(snapshot: Snapshot) -> Ask | None:
    """What every demand can only be for, where there is but one material."""
    codes = names_of(snapshot, "material")
    return Ask(codes[0], None) if len(codes) == 1 else None


def _only_answers(snapshot: Snapshot, noun: str) -> dict[str, Any]:
    """What a field can only say: the one thing that there is to name."""
    found: dict[str, Any] = {}
    for field in noun_fields(noun):
        if field.name == "printer_class" and field.required:
            names = classes_of_printers(snapshot)
        elif field.kind is Kind.REFERENCE and (field.required or field.refers in ASSUMED):
            names = names_of(snapshot, field.refers)
        elif field.required and field.read is read_ask and (only := only_material(snapshot)) is not None:
            found[field.name] = only
            continue
        else:
            continue
        if len(names) == 1:
            found[field.name] = names[0]
    return found
